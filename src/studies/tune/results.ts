/**
 * What tuning found, as data; `summary.json` is this object. Times are seconds, money a plain number of the scenario's currency,
 * shares between 0 and 1. `null` stands where there is no such number.
 */

import type { Setting } from '../../scenario/ranges.js';
import type { WorkflowName } from '../../scenario/schema/scenario.js';
import type { Granted, StudyRecord } from '../../analysis/about.js';
import type { Answer } from '../../analysis/answer.js';
import type { Amount, Found } from '../../analysis/worth/results.js';
import type { Estimate } from '../../statistics/estimate.js';
import type { Varied } from '../../analysis/vary/varied.js';
import type { GoalName, GoalUnit } from './goals.js';

export const TUNE_FORMAT = 'swap-or-hop tune';

export interface TuneGoal {
  readonly name: GoalName;
  /** `the least time` */
  readonly wanted: string;
  /** What the goal is called in tables: `instrument time`. */
  readonly title: string;
  readonly sense: 'least' | 'most';
  /** In what its differences are said. */
  readonly unit: GoalUnit;
}

/** The yield that is wanted at least. */
export interface Constraint {
  readonly yieldAtLeast: number;
  /** What lies so near it lies within the indifference zone. */
  readonly tolerance: number;
  /** Asked for, or a little below what the present setting had in the first look. */
  readonly origin: 'given' | 'present setting';
}

/** How a setting stands to the winner, by the paired interval of the difference. */
export type Standing =
  'winner' | 'no clear difference' | 'worse' | 'better' | 'fails the yield' | 'yield unclear' | 'no winner';

/** What came of one setting over the replications of the comparison, which no selection has seen; or so far, where it was interrupted. */
export interface TunedSetting {
  /** In the order of `varied`. */
  readonly settings: readonly Setting[];
  /** It leaves the strategy as it is. */
  readonly isPresent: boolean;
  readonly standing: Standing;
  /** Whether it meets the least yield; null where none is wanted. */
  readonly meets: 'meets' | 'fails' | 'unclear' | null;
  /** Replications after which the selection left it aside; null where it never did. */
  readonly eliminatedAfter: number | null;
  /** Null where there is no such number, as nothing good was kept. */
  readonly goal: Estimate | null;
  /** How much worse than the winner, paired, interval widened by Bonferroni; null without a winner and for the winner. */
  readonly loss: Estimate | null;
  /** The same as a share of the winner's mean. */
  readonly lossShare: number | null;
  readonly measures: Readonly<
    Record<'time' | 'operatorTime' | 'yield' | 'undetectedBadShare' | 'tips' | 'cost', Estimate>
  >;
  /** Share of campaigns that were ever finished. */
  readonly finishes: number;
}

/** A setting that was looked at before the selection. */
export interface LookedSetting {
  readonly settings: readonly Setting[];
  /** Means over the replications of the first look. */
  readonly goal: number;
  readonly yield: number;
  readonly isCompared: boolean;
}

export interface TuneProcedure {
  /** Stated chance of being right. */
  readonly confidence: number;
  /** What counts as equal: a share of the best mean of the first look, and in the unit of the goal. */
  readonly zone: { readonly share: number; readonly size: number };
  /** Replications of the first look, of the selection (the most that any setting had), and of the comparison; 0 where it was not made. */
  readonly replications: { readonly look: number; readonly selection: number; readonly comparison: number };
  readonly campaigns: number;
  /** False where it ended at the limit, so that the stated chance is not promised. */
  readonly isDecided: boolean;
  readonly text: string;
}

export interface TuneSpace {
  /** All settings that the ranges make together. */
  readonly size: number;
  readonly lookedAt: number;
  /** Those looked at that cannot be together, and why the first one cannot. */
  readonly refused: { readonly count: number; readonly reason: string | null };
  readonly compared: number;
}

/** What knowing something is worth before one chooses: in the unit of the goal, for one campaign. */
export interface SavedWorth {
  readonly saved: Amount;
  /** Probability that the choice is wrong once it is known. */
  readonly wrong: number;
}

/** What draws of all that is uncertain say of the choice between settings. */
export interface SettingsWorth extends Found<SavedWorth> {
  readonly draws: number;
  readonly replicationsPerDraw: number;
  /** Those that have the yield wanted, in the order of the ranges, each with what the goal comes to over all draws. */
  readonly settings: readonly { readonly settings: readonly Setting[]; readonly goal: number }[];
  /** Place among them of the one that one would choose now. */
  readonly chosen: number;
}

export interface TuneResult extends StudyRecord<typeof TUNE_FORMAT> {
  readonly strategy: { readonly name: string; readonly workflow: WorkflowName };
  readonly goal: TuneGoal;
  readonly constraint: Constraint | null;
  readonly allocation: Granted | null;
  readonly varied: readonly Varied[];
  readonly space: TuneSpace;
  /** Those looked at first where there were too many to select from; empty where all were compared. */
  readonly looked: readonly LookedSetting[];
  readonly procedure: TuneProcedure;
  readonly confidence: { readonly level: number; readonly comparisons: number };
  /** Everything compared, in the order of the ranges. */
  readonly settings: readonly TunedSetting[];
  /** Place of the winner in `settings`; null where none meets the yield, or it was interrupted before. */
  readonly winner: number | null;
  readonly present: TunedSetting;
  /** Null where it was not asked for, where there is no choice, and where it was interrupted before. */
  readonly worth: SettingsWorth | null;
  readonly answer: Answer;
  /** YAML that writes the winner into the scenario; null without a winner, and where it was interrupted. */
  readonly snippet: string | null;
  /** When the selection ended, in words. */
  readonly stopping: string;
  readonly warnings: readonly string[];
}
