import type { WentBecause } from '../../campaign/ledger.js';
import type { SpoiledBy } from '../../probe/tip.js';
import type { ColumnSet } from './columns.js';

/**
 * What the replications of a stretch came to for one strategy, as plain data: each column has `count` numbers, the first one
 * being that of the first replication of the stretch. Batches of neighbouring stretches are put together by
 * `Collector.append`, exactly, whatever the stretches.
 *
 * Columns, by name: every measure of `MEASURES`; `finishedAt`, seconds from the start to the end of the last step, NaN where the experiment was not
 * finished; and what the order wants beside them, see `Wants`.
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
  'silentBad',
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
    silentBad: of('silentBad'),
    givenUp: of('givenUp'),
    missing: of('missing'),
    takes: of('takes'),
    badByDrift: of('badByDrift'),
    badOtherwise: of('badOtherwise'),
  };
}
