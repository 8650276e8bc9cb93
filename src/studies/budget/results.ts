/**
 * What a budget found, as data: `summary.json` of `budget` is this object. Times are seconds, money a plain number of the
 * scenario's currency, shares and chances between 0 and 1. `null` stands where there is no such number.
 */

import type { WorkflowName } from '../../scenario/schema/scenario.js';
import type { Granted, StudyRecord } from '../../analysis/about.js';
import type { LeadTime } from '../../analysis/lead-time.js';
import type { Estimate } from '../../statistics/estimate.js';

export const BUDGET_FORMAT = 'swap-or-hop budget';

/** Chances of finishing for which something is asked. */
export const CHANCES = [0.5, 0.8, 0.9, 0.95] as const;

/**
 * What is to be asked for so that it suffices with a chance: the quantile over replications with its distribution-free
 * interval. `ask` is the upper end of that interval, so that the promise holds although replications are finitely many;
 * null where too few campaigns come to an end, or too few replications were run.
 */
export interface Asked {
  readonly value: number | null;
  readonly low: number | null;
  readonly ask: number | null;
}

/** A thing to be ordered. */
export interface Item extends Asked {
  /** Such as `sharp tips`, `chips`, `specimens`. */
  readonly what: string;
}

/** What suffices with a chance, each thing for itself. */
export interface Request {
  readonly chance: number;
  /** Whole booked sessions from the start; null in all three where there are no bookings. */
  readonly sessions: Asked;
  /** Booked time of those sessions on each instrument; null in all three where there are no bookings. In seconds. */
  readonly booked: Asked;
  /** Instrument time with which it is complete, in seconds. */
  readonly time: Asked;
  /** From the start to the end of the last session asked for, nights and weekends in it. In seconds. */
  readonly calendar: Asked;
  /** When the last session asked for ends, such as `Th 17:00:00`; null where there is none. */
  readonly ends: string | null;
  /** From the start to the end of the last review, which may come after the last session. In seconds. */
  readonly reviewed: Asked;
  /** When that is, such as `Fr 09:20:00`; null where there is no answer. */
  readonly reviewedBy: string | null;
  readonly items: readonly Item[];
  readonly cost: Asked;
  /** Chance that the time and all items asked for suffice together, over these replications; null where something has no answer. */
  readonly together: Estimate | null;
}

/** What comes of so much time, over all replications, cut at its end. */
export interface Within {
  /** Where it was asked about in sessions. */
  readonly sessions: number | null;
  /** Booked time on each instrument, or time since the start where there are no bookings. In seconds. */
  readonly time: number;
  /** Chance to be complete within it: finished, with instrument time at most that. */
  readonly finished: Estimate;
  /** Share of the planned images that are kept or given up by then. */
  readonly measured: Estimate;
  readonly yield: Estimate;
}

export interface BudgetStrategy {
  readonly name: string;
  readonly workflow: WorkflowName;
  /** Chance that it ever comes to an end, however long and with all that it needs at hand. */
  readonly finishes: Estimate;
  readonly yield: Estimate;
  readonly requests: readonly Request[];
  /** When to begin preparing at the bench; null where nothing is prepared before the start. */
  readonly leadTime: LeadTime | null;
  /** With the time that was asked about; null where none was. */
  readonly within: Within | null;
  /** With more and more time. */
  readonly curve: readonly Within[];
}

export interface BudgetResult extends StudyRecord<typeof BUDGET_FORMAT> {
  readonly replications: number;
  readonly stopping: string;
  readonly level: number;
  readonly hasBookings: boolean;
  /** Whether time is asked for in whole sessions: where there are bookings, and none is longer than a working day. */
  readonly asksSessions: boolean;
  /** The time that was asked about, or that the scenario grants. */
  readonly granted: Granted | null;
  /** Name of the strategy, and the chance, that the paragraph for a proposal is written for. */
  readonly proposal: { readonly strategy: string; readonly chance: number };
  /** What the scenario says that it does not know, drawn anew in every campaign, in words. */
  readonly notKnown: readonly string[];
  readonly assumed: { readonly values: number; readonly of: number };
  readonly strategies: readonly BudgetStrategy[];
  readonly warnings: readonly string[];
}
