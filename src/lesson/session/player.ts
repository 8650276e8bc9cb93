import type { Advisor, Situation, Suspicion } from '../../campaign/advisor.js';
import type { MountedTip, Remedy } from '../../campaign/replacing.js';
import { SECOND } from '../../kernel/clock.js';
import { asRuled, type Choice, type Doubt, doubtOf, isAboutImages, remedyOf } from './choices.js';

/** Images that a failed check puts in doubt. */
export interface InDoubt {
  readonly images: number;
  /** Seconds that scanning them again takes. */
  readonly scanning: number;
}

/** A moment at which a person may do something about the tip, or about images of it, and what is known of it then. */
export interface Point {
  readonly point: number;
  /** Microseconds. */
  readonly time: number;
  readonly instrument: number;
  readonly kind: string;
  /** Number of the tip among its kind, from 0. */
  readonly tip: number;
  /** Images begun with it. */
  readonly images: number;
  /** Apex radius (nm) that the last check read; null before the first. */
  readonly radiusRead: number | null;
  readonly doubt: Doubt | null;
  /** Null where it is about the tip. */
  readonly inDoubt: InDoubt | null;
  /** What the rules would do. */
  readonly ruled: Choice;
  /** What was done; null where nobody has decided yet. */
  readonly choice: Choice | null;
}

const NOTHING: Remedy = { what: 'nothing' };

/**
 * A person at the instrument who has decided so far, and goes on unasked while there is no doubt. The campaign stops by an
 * error at the first doubt that nobody has decided on.
 */
export class Player implements Advisor {
  readonly points: Point[] = [];
  /** By instrument: the take for which the person goes on with the tip. */
  private readonly goingOn = new Map<number, string>();
  /** Doubts that the rules would repeat before every take, and over which the person goes on. */
  private readonly overruled = new Set<string>();

  /** @param decide what is chosen at a point; null: nobody has decided */
  constructor(private readonly decide: (point: Point) => Choice | null) {}

  /** The point at which the campaign stopped; null where it went on to its end. */
  get question(): Point | null {
    const last = this.points.at(-1);
    return last?.choice === null ? last : null;
  }

  remedy(situation: Situation): Remedy {
    const { instrument, mounted, due, takes, ruled } = situation;
    const doubt = doubtOf(mounted, ruled);
    if (ruled.what === 'change' && doubt === null) return ruled;
    const name = `${instrument} ${mounted.tip.kind.name} ${mounted.tip.number}`;
    const standing = ruled.what === 'change' ? `${name} ${ruled.why} ${mounted.radiusRead}` : null;
    const isOverruled = standing !== null && this.overruled.has(standing) && mounted.judgement === 'sound';
    const isOpen = doubt !== null && !isOverruled;
    const take = `${name} ${due.number} ${takes}`;
    if (!isOpen && this.goingOn.get(instrument) === take) return NOTHING;
    const point = { ...this.pointOf(situation), doubt, inDoubt: null, ruled: asRuled(ruled) };
    const chosen = this.decide(point);
    const isFitting = chosen !== null && !isAboutImages(chosen);
    const choice = this.decided(point, isFitting ? chosen : isOpen ? null : 'go on');
    if (choice === 'go on') {
      this.goingOn.set(instrument, take);
      if (standing !== null) this.overruled.add(standing);
    }
    return remedyOf(choice, mounted, ruled);
  }

  retakes(suspicion: Suspicion): boolean {
    const { images } = suspicion;
    const inDoubt = {
      images: images.length,
      scanning: images.reduce((sum, { pass }) => sum + pass.duration, 0) / SECOND,
    };
    const point = {
      ...this.pointOf(suspicion),
      ...{ doubt: 'images since the last check' as const, inDoubt, ruled: 'take again' as const },
    };
    const chosen = this.decide(point);
    return this.decided(point, chosen !== null && isAboutImages(chosen) ? chosen : null) === 'take again';
  }

  /** @throws Error where nobody has decided */
  private decided<Chosen extends Choice>(point: Point, choice: Chosen | null): Chosen {
    this.points.push({ ...point, choice });
    if (choice === null) throw new Error('Nobody has decided yet what is done.');
    return choice;
  }

  private pointOf({ time, instrument, mounted }: At) {
    const { tip, radiusRead } = mounted;
    return {
      ...{ point: this.points.length, time, instrument, choice: null },
      kind: tip.kind.name,
      tip: tip.number,
      images: Math.ceil(tip.use.images),
      radiusRead: radiusRead > 0 ? radiusRead : null,
    };
  }
}

/** When, where and about which tip something is asked. */
interface At {
  readonly time: number;
  readonly instrument: number;
  readonly mounted: MountedTip;
}
