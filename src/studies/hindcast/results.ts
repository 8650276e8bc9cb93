/**
 * Where finished campaigns lie in what the scenario predicts for them, as data. Times are seconds, shares between 0 and 1.
 */

import type { StudyRecord } from '../../analysis/about.js';
import type { Answer } from '../../analysis/answer.js';

export const HINDCAST_FORMAT = 'swap-or-hop hindcast';

/** What a laboratory knows of a campaign that is over. The yield is the apparent one: nobody knows what went undetected. */
export const RECORDED = ['time', 'operatorTime', 'tips', 'attempts', 'yield'] as const;
export type Recorded = (typeof RECORDED)[number];

/** Middle 50 and 95 % of what is predicted, and its median. */
export interface Predicted {
  readonly median: number;
  readonly half: readonly [number, number];
  readonly most: readonly [number, number];
}

/** One record against the prediction for its strategy. */
export interface Placed {
  readonly campaign: string;
  readonly strategy: string;
  readonly measure: Recorded;
  readonly found: number;
  readonly predicted: Predicted;
  /** Share of the prediction that lies below, with half of what equals it. */
  readonly share: number;
}

/** All records of one measure together. */
export interface Calibration {
  readonly measure: Recorded;
  readonly campaigns: number;
  /** How many lie in the middle 50 % and 95 %. */
  readonly inHalf: number;
  readonly inMost: number;
  /**
   * Their largest distance from uniform shares, and the share of draws in which as many campaigns lie as far or farther; null for fewer
   * than five.
   */
  readonly test: { readonly distance: number; readonly pValue: number } | null;
}

export interface Hindcast extends StudyRecord<typeof HINDCAST_FORMAT> {
  /** Draws of what is uncertain, each with one campaign of each strategy, or with as many as are tested together. */
  readonly replications: number;
  readonly stopping: string;
  readonly placed: readonly Placed[];
  readonly calibration: readonly Calibration[];
  readonly answer: Answer;
  readonly warnings: readonly string[];
}
