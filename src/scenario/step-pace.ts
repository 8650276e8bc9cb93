import type { Scenario } from './schema/scenario.js';

/** Steps in which nothing is done but wait. */
const WAITS: readonly string[] = ['warmUp', 'settle'];

/** By what the usual time of a step is divided: the pace of waits, that of hands where the step needs them, else 1. */
export function stepPace(step: string, manual: boolean, pace: Scenario['pace']): number {
  if (WAITS.includes(step)) return pace.wait;
  return manual ? pace.hands : 1;
}
