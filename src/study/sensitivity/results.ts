/**
 * Which values decide between two strategies, as data. Times are seconds, money a plain number of the scenario's currency,
 * shares between 0 and 1; places of a range are in the unit of the value. `null` stands where there is no such number.
 */

import type { Standing } from '../../scenario/register.js';
import type { StudyRecord } from '../about.js';
import type { Beside, BreakEvenMeasure } from '../breakeven/results.js';
import type { Estimate } from '../results.js';

export const SENSITIVITY_FORMAT = 'swap-or-hop sensitivity';

/** A value at an end of its range. */
export interface End {
  readonly at: string;
  /** The difference there; null where the end is no scenario. */
  readonly difference: Estimate | null;
  /** Why it is none. */
  readonly notTried: string | null;
}

/** Where along a range the verdict turns. */
export interface Turning extends Estimate {
  readonly unit: string;
  /** The verdict turns above this place, or below it. */
  readonly side: 'above' | 'below';
}

/** One value, put to both ends of its range with all others as they stand. */
export interface Swing {
  readonly path: string;
  readonly description: string;
  readonly value: string;
  readonly standing: Standing;
  readonly low: End;
  readonly high: End;
  /** Largest change that an end makes to the difference, without sign. */
  readonly most: number;
  /** Ends at which the sign is another one: told apart there, so reversed, or only no longer told apart. */
  readonly turns: 'reversed' | 'no longer told apart' | null;
  /** Null where it turns at no end, or the place could not be told. */
  readonly turning: Turning | null;
}

/** Elementary effects of one value, over its whole range. */
export interface Effect {
  readonly path: string;
  readonly description: string;
  readonly mu: number;
  readonly muStar: Estimate;
  readonly sigma: number;
  /** How many trajectories gave an effect. */
  readonly effects: number;
}

export interface Morris {
  readonly trajectories: number;
  readonly levels: number;
  /** Of each strategy at each point, on luck that is a trajectory's own. */
  readonly replications: number;
  readonly effects: readonly Effect[];
  /** Standard error that luck alone gives to one effect, root mean square over all. */
  readonly noise: number;
  /** Share of the points at which the mean difference has the other sign. */
  readonly otherSign: Estimate;
}

export interface Sensitivity extends StudyRecord<typeof SENSITIVITY_FORMAT> {
  readonly between: readonly [string, string];
  readonly measure: BreakEvenMeasure;
  readonly level: number;
  /** Second strategy less first, all values as they stand. */
  readonly difference: Estimate;
  /** Who is better there; null where the two are not told apart. */
  readonly better: string | null;
  /** What else differs with all values as they stand. */
  readonly beside: readonly Beside[];
  /** What has a source was tried too. */
  readonly isAll: boolean;
  /** In order of what they change, the most first. */
  readonly swings: readonly Swing[];
  /** Null where nothing is assumed, and where somebody stopped it before. */
  readonly morris: Morris | null;
  readonly replications: number;
  readonly campaigns: number;
  readonly stopping: string;
  readonly answer: { readonly sentences: readonly string[]; readonly decided: boolean };
  readonly warnings: readonly string[];
}
