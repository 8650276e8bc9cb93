/**
 * Which values decide between two strategies, as data. Times are seconds, money a plain number of the scenario's currency,
 * shares between 0 and 1; places of a range are in the unit of the value. `null` stands where there is no such number.
 */

import type { Standing } from '../../scenario/register.js';
import type { StudyRecord } from '../../analysis/about.js';
import type { Answer } from '../../analysis/answer.js';
import type { Beside } from '../../analysis/beside.js';
import type { PairMeasure } from '../../analysis/compared-measures.js';
import type { Estimate } from '../../statistics/estimate.js';
import type { SobolIndices } from '../../statistics/information/sobol.js';

export const SENSITIVITY_FORMAT = 'swap-or-hop sensitivity';

/** A value at an end of its range. */
export interface End {
  readonly at: string;
  /** The difference there; null where the end is no scenario. */
  readonly difference: Estimate | null;
  /** Why it is none. */
  readonly notTried: string | null;
}

/** Where along a range the verdict reverses. */
export interface Turning extends Estimate {
  readonly unit: string;
  /** The verdict turns above this place, or below it. */
  readonly side: 'above' | 'below';
}

/** One value, put to both range limits with all others as they stand. */
export interface Swing {
  readonly path: string;
  readonly description: string;
  readonly value: string;
  readonly standing: Standing;
  readonly low: End;
  readonly high: End;
  /** Largest change that an end makes to the difference, without sign. */
  readonly most: number;
  /** Ends at which the sign is another one: told apart there, so reversed, or only no longer clear. */
  readonly turns: 'reversed' | 'no longer clear' | null;
  /** Null where it turns at no end, or the place could not be told. */
  readonly turning: Turning | null;
}

/** What share a value has in the variance of the expected difference, where all are drawn at once. */
export interface Weight extends SobolIndices {
  readonly path: string;
  readonly description: string;
  /** Central 95 % of what was drawn, as written; null where that is not one range. */
  readonly within: string | null;
}

/** All values at once, drawn again and again. */
export interface AtOnce {
  readonly draws: number;
  /** Of each strategy, on random numbers that are a draw's own. */
  readonly replicationsPerDraw: number;
  /** What weighs most, its interactions included, first. */
  readonly weights: readonly Weight[];
  /** Share of the variance that all of them together explain; to which of them the rest belongs these draws do not tell. */
  readonly explained: number;
  /** Share of the draws in which the expected difference has the other sign. */
  readonly otherSign: Estimate;
  /** What was tried one at a time only. */
  readonly notDrawn: readonly { readonly path: string; readonly description: string }[];
}

export interface Sensitivity extends StudyRecord<typeof SENSITIVITY_FORMAT> {
  readonly between: readonly [string, string];
  readonly measure: PairMeasure;
  readonly level: number;
  /** Second strategy less first, all values as they stand. */
  readonly difference: Estimate;
  /** From which size on it matters. */
  readonly smallest: number;
  /** Who is better there; null where no difference that matters is clear. */
  readonly better: string | null;
  /** What else differs with all values as they stand. */
  readonly beside: readonly Beside[];
  /** What has a source was tried too. */
  readonly isAll: boolean;
  /** In order of what they change, the most first. */
  readonly swings: readonly Swing[];
  /** Null where nothing can be drawn, and where it was interrupted before. */
  readonly atOnce: AtOnce | null;
  readonly replications: number;
  readonly campaigns: number;
  readonly stopping: string;
  readonly answer: Answer;
  readonly warnings: readonly string[];
}
