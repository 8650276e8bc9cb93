/**
 * Where two strategies come to the same, as data. Times are seconds, money a plain number of the scenario's currency, shares
 * between 0 and 1; numbers of a range are in its own unit. `null` stands where there is no such number.
 */

import type { StudyRecord } from '../../analysis/about.js';
import type { Answer } from '../../analysis/answer.js';
import type { Estimate } from '../../statistics/estimate.js';
import type { Beside } from '../../analysis/beside.js';
import type { PairMeasure } from '../../analysis/compared-measures.js';

export const BREAKEVEN_FORMAT = 'swap-or-hop breakeven';

/** A value of the scenario that is varied along a range. */
export interface RangeSaid {
  readonly path: string;
  readonly description: string;
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  readonly isWhole: boolean;
  /** Settings are tried, and interpolated, in equal ratios. */
  readonly isLog: boolean;
}

/** What was found at one setting. */
export interface CurvePoint {
  readonly number: number;
  /** The number with its unit, shortened to be read. */
  readonly setting: string;
  /** Second strategy less first. */
  readonly difference: Estimate;
  /** From which size on it matters. */
  readonly smallest: number;
  /** Means of the two. */
  readonly first: number;
  readonly second: number;
  readonly replications: number;
  /** Who is better there, all settings together; null where the two show no clear difference. */
  readonly better: string | null;
}

/** Where the two come to the same, in the unit of the range. */
export interface BreakEvenPoint extends Estimate {
  /** Who is better below and above. */
  readonly below: string;
  readonly above: string;
  /** What else differs at the setting tried that lies nearest. */
  readonly beside: readonly Beside[];
}

export type Pattern = 'crosses' | 'one is better throughout' | 'no clear difference' | 'equal throughout';

/** The range with all that was found along it. */
export interface BreakEvenLine {
  /** Setting of the second path; null where there is one path. */
  readonly across: string | null;
  readonly acrossNumber: number | null;
  readonly pattern: Pattern;
  readonly points: readonly CurvePoint[];
  readonly crossings: readonly BreakEvenPoint[];
  /** Every crossing is known as well as is asked for. */
  readonly isPrecise: boolean;
  /** What else differs at the low and the high end of the range. */
  readonly besideEnds: readonly [readonly Beside[], readonly Beside[]];
}

export interface BreakEven extends StudyRecord<typeof BREAKEVEN_FORMAT> {
  readonly between: readonly [string, string];
  readonly measure: PairMeasure;
  readonly level: number;
  readonly range: RangeSaid;
  /** The second path; null where there is one. */
  readonly across: RangeSaid | null;
  /** One, or one a setting of the second path. */
  readonly lines: readonly BreakEvenLine[];
  readonly campaigns: number;
  readonly stopping: string;
  readonly answer: Answer;
  readonly warnings: readonly string[];
}
