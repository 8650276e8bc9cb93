/**
 * What a grid of settings came to, as data. Times are seconds, money a plain number of the scenario's currency, shares
 * between 0 and 1; numbers of a range are in its own unit. `null` stands where there is no such number.
 */

import type { Setting } from '../../scenario/ranges.js';
import type { TimePart } from '../../campaign/time-parts.js';
import type { WorkflowName } from '../../scenario/schema/scenario.js';
import type { StudyRecord } from '../../analysis/about.js';
import type { Answer } from '../../analysis/answer.js';
import type { Estimate } from '../../statistics/estimate.js';
import type { Measure } from '../../execution/measures.js';

export const SWEEP_FORMAT = 'swap-or-hop sweep';

/** One value that is varied. */
export interface SweepRange {
  readonly path: string;
  readonly description: string;
  /** Settings without an order, as against numbers. */
  readonly isChoice: boolean;
  readonly isLog: boolean;
  readonly unit: string;
  readonly settings: readonly Setting[];
  /** The numbers of the settings; null for those that are none. */
  readonly numbers: readonly (number | null)[];
}

export interface SweptStrategy {
  readonly name: string;
  readonly workflow: WorkflowName;
  /** Whether any of the paths changes its campaigns; one that sets the value itself does not follow the shared part. */
  readonly follows: boolean;
}

/** One strategy at one point of the grid. */
export interface SweepCell {
  /** Number of the setting in each range, from 0. */
  readonly at: readonly number[];
  readonly settings: readonly string[];
  readonly strategy: string;
  readonly measures: Readonly<Record<Measure, Estimate>>;
  /** Seconds of the instrument time by what they were for; the means add up to it. */
  readonly timeParts: Readonly<Record<TimePart, Estimate>>;
  /** Seconds of instrument time for each good image, over campaigns; null where none was ever kept. */
  readonly timePerGood: Estimate | null;
  /** Seconds of scans that were not kept. */
  readonly scanningLost: Estimate;
  /** Chance that the experiment is ever finished. */
  readonly finishes: Estimate;
}

/** The best of the settings tried, in one respect. */
export interface SweepBest {
  readonly strategy: string;
  /** `timePerGood`: instrument time for each good image, over campaigns. */
  readonly respect: 'time' | 'timePerGood' | 'operatorTime' | 'yield' | 'cost';
  readonly settings: readonly string[];
  readonly estimate: Estimate;
  /** Its yield, beside a best in another respect. */
  readonly yield: Estimate;
  /** Share of its campaigns that were ever finished. */
  readonly finishes: number;
  /** Settings that show no clear difference from it that matters, all together. */
  readonly alike: readonly (readonly string[])[];
}

export interface Sweep extends StudyRecord<typeof SWEEP_FORMAT> {
  readonly level: number;
  /** One or two. */
  readonly ranges: readonly SweepRange[];
  readonly strategies: readonly SweptStrategy[];
  /** Of each strategy at each point. */
  readonly replications: number;
  readonly campaigns: number;
  readonly stopping: string;
  /** Point by point, the last range fastest, all strategies at each. */
  readonly cells: readonly SweepCell[];
  /** Points that are no scenario, and why. */
  readonly leftOut: readonly { readonly settings: readonly string[]; readonly reason: string }[];
  readonly best: readonly SweepBest[];
  readonly answer: Answer;
  readonly warnings: readonly string[];
}
