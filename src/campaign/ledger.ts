import { isGood } from '../probe/image.js';
import type { Spoiling, Tip, Use } from '../probe/tip.js';
import type { CampaignModel, ImageModel } from './model.js';
import type { ImageDrift, TakeName, TakeState } from './state.js';

/** Why a tip went. */
export type WentBecause =
  | 'flagged by an image'
  | 'failed a check'
  | 'use reached'
  | 'radius above limit'
  | 'critical pass'
  | "the operator's choice"
  | 'mishandled'
  | 'its chip was exchanged'
  | 'another kind was needed'
  | 'end of the experiment';

/** One take of an image. Times in microseconds. */
export interface Take {
  image: ImageModel;
  /** Running number of takes of this image in this replication, from 0; never reset. */
  running: number;
  /** The take of this image before it. */
  previous: Take | null;
  /** Null where the campaign was taken up after that tip had gone. */
  tip: Tip | null;
  start: number;
  end: number;
  /** True quality, whatever anyone noticed; 0 for a stopped scan. */
  quality: number;
  /** Whether that is good. */
  good: boolean;
  drift: ImageDrift;
  /** When it was flagged; null if it never was. */
  flaggedAt: number | null;
  /** When the review, or the scan that was stopped, began that had it flagged; null if none did. */
  flaggedFrom: number | null;
  /** When the specimen that it showed was lost; null if it never was. */
  voidAt: number | null;
  /** When the step began that lost it; null if none did. */
  voidFrom: number | null;
}

/** Whether drift alone spoiled a take: it is bad, and would be good without. Nothing is said against its tip then. */
export function isSpoiledByDrift({ image, good, quality, drift }: Take): boolean {
  return !good && isGood(image.pass.demand, quality / drift.quality);
}

/** Bad scans of an image: those that drift alone spoiled, and all others. */
export interface BadScans {
  readonly byDrift: number;
  readonly otherwise: number;
}

/** A take as plain data. */
export function takeState({ image, running, tip, start, end, quality, drift, ...judged }: Take): TakeState {
  const { flaggedAt, flaggedFrom, voidAt, voidFrom } = judged;
  const maker = tip === null ? null : { kind: tip.kind.index, number: tip.number };
  return {
    ...{ image: image.number, running, tip: maker, start, end, quality, drift },
    ...{ flaggedAt, flaggedFrom, voidAt, voidFrom },
  };
}

/** What became of one tip. */
export interface TipRecord {
  readonly instrument: number;
  readonly kind: string;
  readonly number: number;
  readonly use: Readonly<Use>;
  readonly spoiled: Spoiling | null;
  readonly went: WentBecause;
  /** When it was first mounted, microseconds. */
  readonly mounted: number;
}

/** What became of one image by some moment. */
export interface ImageFate {
  kept: Take | null;
  fate: 'good' | 'undetected bad' | 'given up' | 'missing';
}

/** What one replication of one strategy measured. The instruments write it; `outcomeOf` reads it. */
export class Ledger {
  /** The last take by image number in the plan; the others hang on it. */
  readonly lastTakes: (Take | null)[];
  readonly tips: TipRecord[] = [];
  /** When the steps began that ended with a new tip on, in microseconds. */
  readonly tipsUsed: number[] = [];
  /** Moments at which probes were bought, chips opened, specimens used, in microseconds. */
  readonly probesBought: { readonly time: number; readonly kind: number }[] = [];
  readonly chipsOpened: number[] = [];
  readonly specimensUsed: number[] = [];
  /** Moments since which an image's attempts count anew. */
  private readonly attemptsFrom = new Map<number, number>();
  /** By image, how many takes it had when the campaign was taken up. */
  private readonly recalled = new Map<number, number>();

  constructor(private readonly model: CampaignModel) {
    this.lastTakes = new Array<Take | null>(model.images.length).fill(null);
  }

  /** Puts down a take that was made before the campaign was taken up. */
  recall(state: TakeState, image: ImageModel, tip: Tip | null): void {
    const good = isGood(image.pass.demand, state.quality);
    this.add({ ...state, image, tip, good, previous: this.last(image) });
    this.recalled.set(image.number, this.count(image));
  }

  /** Whether a take was made before the campaign was taken up. */
  isRecalled({ image, running }: Take): boolean {
    return this.recalled.size > 0 && running < (this.recalled.get(image.number) ?? 0);
  }

  /** Puts down a take that has been made; it names the one before it. */
  add(take: Take): void {
    this.lastTakes[take.image.number] = take;
  }

  /** The last take of an image; null where it has none. */
  last(image: ImageModel): Take | null {
    return this.lastTakes[image.number];
  }

  /** How many takes an image has. */
  count(image: ImageModel): number {
    const last = this.lastTakes[image.number];
    return last === null ? 0 : last.running + 1;
  }

  /** All takes of the image with this number, first one first. */
  takesOf(image: number): readonly Take[] {
    const takes: Take[] = [];
    for (let take = this.lastTakes[image]; take !== null; take = take.previous) takes.push(take);
    return takes.reverse();
  }

  /** Bad scans of an image, first ones included that count no more. */
  badScans(image: ImageModel): BadScans {
    let [byDrift, otherwise] = [0, 0];
    for (let take = this.last(image); take !== null; take = take.previous) {
      if (take.good) continue;
      if (isSpoiledByDrift(take)) byDrift += 1;
      else otherwise += 1;
    }
    return { byDrift, otherwise };
  }

  /** The take with this name. Throws an Error where there is none. */
  take({ image, running }: TakeName): Take {
    const take = this.takesOf(image).at(running);
    if (take === undefined) throw new Error(`Image ${image} has no attempt ${running}.`);
    return take;
  }

  /** Takes of an image up to this number no longer count against its attempts. */
  countAttemptsFrom(image: number, takes: number): void {
    this.attemptsFrom.set(image, takes);
  }

  /** How many takes of an image no longer count. */
  uncounted(image: number): number {
    return this.attemptsFrom.size === 0 ? 0 : (this.attemptsFrom.get(image) ?? 0);
  }

  /** Takes of an image that count against its attempts. */
  attempts(image: ImageModel): number {
    return this.count(image) - this.uncounted(image.number);
  }

  /**
   * The last take of an image that is neither flagged nor void, where the campaign is cut at `by` microseconds: a review or step
   * that runs then is finished and counts.
   */
  kept(image: ImageModel, by = Infinity): Take | null {
    // With a void take, all before it are void.
    for (let take = this.lastTakes[image.number]; take !== null && !hasBegun(take.voidFrom, by); take = take.previous)
      if (take.end <= by && !hasBegun(take.flaggedFrom, by)) return take;
    return null;
  }

  /**
   * The specimen is lost at the region of these images, in a step that began at `from` and ends at `at`: their takes are void, and
   * they get their attempts anew.
   */
  voidTakes(images: readonly ImageModel[], from: number, at: number): void {
    for (const image of images) {
      for (let take = this.last(image); take !== null && take.voidAt === null; take = take.previous) {
        take.voidAt = at;
        take.voidFrom = from;
      }
      this.countAttemptsFrom(image.number, this.count(image));
    }
  }

  /** What became of an image, where the campaign is cut at `by` microseconds. */
  fate(image: ImageModel, by = Infinity): ImageFate {
    const kept = this.kept(image, by);
    return { kept, fate: this.fateOf(image, kept, by) };
  }

  /** As `fate` at the end, written into what is given. */
  fillIn(image: ImageModel, into: ImageFate): ImageFate {
    const last = this.lastTakes[image.number];
    const isTrivial = last === null || (last.flaggedFrom === null && last.voidFrom === null);
    into.kept = isTrivial ? last : this.kept(image);
    into.fate = this.fateOf(image, into.kept, Infinity);
    return into;
  }

  private fateOf(image: ImageModel, kept: Take | null, by: number): ImageFate['fate'] {
    if (kept !== null) return kept.good ? 'good' : 'undetected bad';
    const tried = this.takesOf(image.number).filter((take) => take.end <= by && !hasBegun(take.voidFrom, by)).length;
    return tried >= this.model.settings.noticing.attempts ? 'given up' : 'missing';
  }
}

/** Whether something that may never begin has begun before a moment. */
function hasBegun(moment: number | null, by: number): boolean {
  return moment !== null && moment < by;
}
