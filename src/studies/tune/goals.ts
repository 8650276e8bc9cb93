import type { Numbers } from '../../statistics/numbers.js';
import { jackknifedRatio, linearisedRatio } from '../../statistics/ratio.js';
import { INSTRUMENT_TIME, OPERATOR_TIME } from '../../analysis/words.js';
import type { Kept, Trials } from './trials.js';

/** In what the differences of a goal are said. */
export type GoalUnit = 'time' | 'operatorTime' | 'cost' | 'yield';

/** What a setting is tuned for. */
export interface Goal {
  /** What is wanted, in words. */
  readonly wanted: string;
  readonly sense: 'least' | 'most';
  readonly of: Kept;
  /** The goal is the mean of `of` over the mean of this one; null for the mean of `of` alone. */
  readonly per: Kept | null;
  /** In what its differences are said. */
  readonly unit: GoalUnit;
  /** What stands for the goal in a table. */
  readonly title: string;
  /** Whether a least yield belongs to it: always, only where one is given, or never. */
  readonly leastYield: 'always' | 'where given' | 'never';
  /** Whether it is counted at the end of the granted time. */
  readonly isWithinGranted: boolean;
}

/** Every goal by its name on the command line; a new one is one entry. */
export const GOALS = {
  'least-time': {
    wanted: 'the least time',
    sense: 'least',
    of: 'time',
    per: null,
    unit: 'time',
    title: INSTRUMENT_TIME,
    leastYield: 'always',
    isWithinGranted: false,
  },
  'least-operator-time': {
    wanted: 'the least operator time',
    sense: 'least',
    of: 'operatorTime',
    per: null,
    unit: 'operatorTime',
    title: OPERATOR_TIME,
    leastYield: 'always',
    isWithinGranted: false,
  },
  'least-cost': {
    wanted: 'the least cost',
    sense: 'least',
    of: 'cost',
    per: null,
    unit: 'cost',
    title: 'cost',
    leastYield: 'always',
    isWithinGranted: false,
  },
  'least-time-per-quality': {
    wanted: 'the least time per unit of image quality',
    sense: 'least',
    of: 'time',
    per: 'goodImages',
    unit: 'time',
    title: `${INSTRUMENT_TIME} per unit of image quality`,
    leastYield: 'where given',
    isWithinGranted: false,
  },
  'most-yield': {
    wanted: 'the most yield within the granted time',
    sense: 'most',
    of: 'cutYield',
    per: null,
    unit: 'yield',
    title: 'yield within the granted time',
    leastYield: 'never',
    isWithinGranted: true,
  },
} as const satisfies Readonly<Record<string, Goal>>;

export type GoalName = keyof typeof GOALS;
export const GOAL_NAMES = [
  'least-time',
  'least-operator-time',
  'least-cost',
  'least-time-per-quality',
  'most-yield',
] as const;

export function goalNamed(name: GoalName): Goal {
  return GOALS[name];
}

/** Replications that make one observation of a selection: a ratio of means needs a few together. */
export function batchOf({ per }: Goal): number {
  return per === null ? 1 : 5;
}

/** The sense in which observations are better: a ratio is observed upside down, as images per time, since no image may be good. */
export function observedSense({ per, sense }: Goal): Goal['sense'] {
  return per === null ? sense : sense === 'least' ? 'most' : 'least';
}

/** Observation `index` of a selection, from as many replications as a batch has. */
export function observationOf(goal: Goal, trials: Trials, index: number): number {
  const batch = batchOf(goal);
  trials.lookAt((index + 1) * batch);
  if (goal.per === null) return trials.of(goal.of)[index];
  const part = (kept: Kept) => trials.of(kept).subarray(index * batch, (index + 1) * batch);
  return jackknifedRatio(part(goal.per), part(goal.of));
}

/** The mean of the observed thing over all replications run, as a selection sees it. */
export function observedMean(goal: Goal, trials: Trials): number {
  const mean = trials.mean(goal.of);
  return goal.per === null ? mean : trials.mean(goal.per) / mean;
}

/**
 * Numbers of which the mean is what the goal came to, and the spread that of its estimate; null where there is no such number,
 * as nothing good was ever kept.
 */
export function goalValues(goal: Goal, trials: Trials): Numbers | null {
  if (goal.per === null) return trials.of(goal.of);
  if (!(trials.mean(goal.per) > 0)) return null;
  return linearisedRatio(trials.of(goal.of), trials.of(goal.per));
}
