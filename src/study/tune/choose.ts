import { checkFeasibility, type Feasibility } from '../../statistics/selection/feasibility.js';
import { type Selection, selectBest } from '../../statistics/selection/kim-nelson.js';
import type { Goal } from './goals.js';
import { observationOf, observedSense } from './goals.js';
import type { Constraint } from './results.js';
import type { Trials } from './trials.js';

/** Observations of every setting before any is left aside. */
const FIRST_STAGE = 50;

export interface Choice {
  /** Null where no least yield is wanted. */
  readonly feasibility: readonly Feasibility[] | null;
  /** Null where no setting is known to meet the least yield. */
  readonly selection: Selection | null;
  readonly isDecided: boolean;
}

export interface Choosing {
  readonly goal: Goal;
  readonly constraint: Constraint | null;
  readonly confidence: number;
  /** In the unit of what is observed. */
  readonly zone: number;
  /** Whether so many more campaigns may be run. */
  readonly mayRun: (campaigns: number) => boolean;
}

/**
 * Chooses among settings, each with its trials: first which meet the least yield, then the best of those. Each of the two
 * gets half of the error; both share it among all settings, so that by Bonferroni's inequality the choice is right with the
 * stated chance whichever settings the first part leaves (Andradóttir and Kim 2010, section 4).
 */
export function choose(trials: readonly Trials[], choosing: Choosing): Choice {
  const { goal, constraint, zone, mayRun } = choosing;
  const all = trials.map((_, system) => system);
  const error = (1 - choosing.confidence) / (constraint === null ? 1 : 2);
  const feasibility =
    constraint === null
      ? null
      : checkFeasibility(
          { systems: all, error, firstStage: FIRST_STAGE, zone: constraint.tolerance, least: constraint.yieldAtLeast },
          {
            observe: (system, index) => trials[system].upTo(index + 1).values.yield[index],
            mayGoOn: mayRun,
          },
        );
  const systems =
    feasibility === null ? all : feasibility.filter(({ found }) => found === 'meets').map((each) => each.system);
  const isTold = feasibility?.every(({ found }) => found !== 'not told') ?? true;
  if (systems.length === 0) return { feasibility, selection: null, isDecided: isTold };
  const selection = selectBest(
    { systems, sharedAmong: trials.length, error, firstStage: FIRST_STAGE, zone, sense: observedSense(goal) },
    { observe: (system, index) => observationOf(goal, trials[system], index), mayGoOn: mayRun },
  );
  return { feasibility, selection, isDecided: isTold && selection.isDecided };
}
