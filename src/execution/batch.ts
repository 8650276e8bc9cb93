import type { WentBecause } from '../campaign/ledger.js';
import type { SpoiledBy } from '../probe/tip.js';
import type { ColumnSet } from './columns.js';

/** What is wanted of replications beside their measures, as further columns and sums. */
export interface Wants {
  /** `cutFinished` (1 or 0), `cutYield`, `cutSilentBadShare`, `cutMissing`, `cutTips`: at the end of the granted time, where any is. */
  readonly cut?: boolean;
  /** `cutYield PLACE`, `cutMissing PLACE`: cut at the end of each of so many booked seconds, by its place in the list. */
  readonly cutAfter?: readonly number[];
  /** `time: PART`: seconds of the instrument time that went to each of TIME_PARTS. */
  readonly timeParts?: boolean;
  /** `tips of KIND`: tips used of each of these kinds. */
  readonly tipsOf?: readonly string[];
  /** Sums by image, by activity, and by what became of tips. */
  readonly sums?: boolean;
}

/**
 * What consecutive replications came to for one strategy, as plain data: each column has `count` numbers, the first one being
 * that of the first replication. Batches that follow upon each other are put together by `Collector.append`, exactly,
 * whatever their lengths.
 *
 * Columns, by name: every measure of `MEASURES`; `finishedAt`, seconds from the start to the end of the last step, NaN where the experiment was not
 * finished; and what is wanted beside them, see `Wants`.
 */
export interface Batch {
  readonly count: number;
  readonly columns: ColumnSet;
  /** Null where they were not wanted. */
  readonly sums: SumsOfBatch | null;
}

export const IMAGE_SUMS = [
  'quality',
  'driftQuality',
  'good',
  'undetectedBad',
  'givenUp',
  'missing',
  'takes',
  'badByDrift',
  'badOtherwise',
] as const;
export type ImageSum = (typeof IMAGE_SUMS)[number];

/**
 * Sums over the replications of a batch, all of them whole numbers that stay below 2^53 for two million replications: adding
 * them up is exact, so it does not matter in which order.
 */
export interface SumsOfBatch {
  /** Each as long as the plan, in its order; `quality` and `driftQuality` in units of 2^-32. */
  readonly images: Readonly<Record<ImageSum, Float64Array>>;
  /** Microseconds by activity in the order of ACTIVITIES: 2^30 times `high`, and `low`. */
  readonly split: { readonly high: Float64Array; readonly low: Float64Array };
  /** Tips by what first spoiled them, and by why they went. */
  readonly spoiledBy: ReadonlyMap<SpoiledBy | 'unspoiled', number>;
  readonly wentBecause: ReadonlyMap<WentBecause, number>;
}

/** A record with one entry a sum. */
export function perImageSum<Value>(of: (sum: ImageSum) => Value): Record<ImageSum, Value> {
  return {
    quality: of('quality'),
    driftQuality: of('driftQuality'),
    good: of('good'),
    undetectedBad: of('undetectedBad'),
    givenUp: of('givenUp'),
    missing: of('missing'),
    takes: of('takes'),
    badByDrift: of('badByDrift'),
    badOtherwise: of('badOtherwise'),
  };
}
