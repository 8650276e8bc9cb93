import type { Advisor, Situation } from '../../campaign/advisor.js';
import type { Remedy } from '../../campaign/replacing.js';
import { asRuled, type Choice, type Doubt, doubtOf, remedyOf } from './choices.js';

/** A moment before a take at which a person may do something about the tip, and what is known of it then. */
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
    const point = pointOf(this.points.length, situation, doubt);
    const choice = this.decide(point) ?? (isOpen ? null : 'go on');
    this.points.push({ ...point, choice });
    if (choice === null) throw new Error('Nobody has decided yet what is done about the tip.');
    if (choice === 'go on') {
      this.goingOn.set(instrument, take);
      if (standing !== null) this.overruled.add(standing);
    }
    return remedyOf(choice, mounted, ruled);
  }
}

function pointOf(point: number, { time, instrument, mounted, ruled }: Situation, doubt: Doubt | null): Point {
  const { tip, radiusRead } = mounted;
  return {
    ...{ point, time, instrument, doubt, choice: null },
    kind: tip.kind.name,
    tip: tip.number,
    images: Math.ceil(tip.use.images),
    radiusRead: radiusRead > 0 ? radiusRead : null,
    ruled: asRuled(ruled),
  };
}
