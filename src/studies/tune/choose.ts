import { checkFeasibility, type Feasibility } from '../../statistics/selection/feasibility.js';
import { type Selection, selectBest } from '../../statistics/selection/kim-nelson.js';
import type { Procedure } from '../../statistics/selection/observing.js';
import { completed, type Work } from '../../execution/work.js';
import type { Counter } from './counter.js';
import { batchOf, type Goal, observationOf, observedSense } from './goals.js';
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
  readonly counter: Counter;
}

/**
 * Chooses among settings, each with its trials: first which meet the least yield, then the best of those. Each of the two
 * gets half of the error; both share it among all settings, so that by Bonferroni's inequality the choice is right with the
 * stated chance whichever settings the first part leaves (Andradóttir and Kim 2010, section 4).
 */
export function* choose(trials: readonly Trials[], choosing: Choosing): Work<Choice> {
  const { goal, constraint, zone, mayRun, counter } = choosing;
  const all = trials.map((_, system) => system);
  const error = (1 - choosing.confidence) / (constraint === null ? 1 : 2);
  const feasibility =
    constraint === null
      ? null
      : yield* carriedThrough(
          checkFeasibility(
            {
              systems: all,
              error,
              firstStage: FIRST_STAGE,
              zone: constraint.tolerance,
              least: constraint.yieldAtLeast,
            },
            {
              observe: (system, index) => trials[system].lookAt(index + 1).of('yield')[index],
              mayGoOn: mayRun,
            },
          ),
          { trials, batch: 1, counter },
        );
  const systems =
    feasibility === null ? all : feasibility.filter(({ found }) => found === 'meets').map((each) => each.system);
  const isTold = feasibility?.every(({ found }) => found !== 'unclear') ?? true;
  if (systems.length === 0) return { feasibility, selection: null, isDecided: isTold };
  const selection = yield* carriedThrough(
    selectBest(
      { systems, sharedAmong: trials.length, error, firstStage: FIRST_STAGE, zone, sense: observedSense(goal) },
      { observe: (system, index) => observationOf(goal, trials[system], index), mayGoOn: mayRun },
    ),
    { trials, batch: batchOf(goal), counter },
  );
  return { feasibility, selection, isDecided: isTold && selection.isDecided };
}

/** Observations that are run ahead of a procedure, at least and as a share of those it has: few enough to be wasted. */
const AHEAD = { least: 8, share: 1 / 8 };

/** Carries a procedure through, with the campaigns run that it is about to look at, and some more in the same go. */
function* carriedThrough<Result>(
  procedure: Procedure<Result>,
  { trials, batch, counter }: { readonly trials: readonly Trials[]; readonly batch: number; readonly counter: Counter },
): Work<Result> {
  for (;;) {
    const step = procedure.next();
    if (step.done === true) return step.value;
    const { systems, observations } = step.value;
    if (systems.every((system) => trials[system].count >= batch * observations)) continue;
    const ahead = observations <= FIRST_STAGE ? 0 : Math.max(AHEAD.least, Math.floor(AHEAD.share * observations));
    yield* completed(counter.over(systems.flatMap((system) => trials[system].tasksTo(batch * (observations + ahead)))));
  }
}
