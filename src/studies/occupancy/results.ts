/**
 * What the booked hours of each session go to, as data. Times are seconds, shares between 0 and 1.
 */

import type { StudyRecord } from '../../analysis/about.js';
import type { Answer } from '../../analysis/answer.js';
import type { Activity } from '../../campaign/activities.js';
import type { WorkflowName } from '../../scenario/schema/scenario.js';
import type { Estimate } from '../../statistics/estimate.js';

export const OCCUPANCY_FORMAT = 'swap-or-hop occupancy';

/** What booked hours go to: an activity, or nothing, as the campaign is over or has no stock left to go on. */
export type Use = Activity | 'no longer needed';

/** A share of the booked hours of a session, over all replications. */
export interface UseShare extends Estimate {
  readonly use: Use;
}

export interface Session {
  /** Counted from 1; without bookings every 24 hours from the start on count as one. */
  readonly session: number;
  /** When it ends, from the start. */
  readonly time: number;
  /** The same on the clock, such as `Tu 17:00`. */
  readonly until: string;
  /** Of all instruments together. */
  readonly booked: number;
  /** The chance that the campaign still goes on in it. */
  readonly needed: Estimate;
  /** Those that any replication has; they add up to 1. */
  readonly uses: readonly UseShare[];
}

export interface OccupiedStrategy {
  readonly name: string;
  readonly workflow: WorkflowName;
  /** As many as the longest replication takes, at most MOST_SESSIONS. */
  readonly sessions: readonly Session[];
}

export interface Occupancy extends StudyRecord<typeof OCCUPANCY_FORMAT> {
  readonly replications: number;
  readonly stopping: string;
  readonly level: number;
  readonly strategies: readonly OccupiedStrategy[];
  readonly answer: Answer;
  readonly warnings: readonly string[];
}
