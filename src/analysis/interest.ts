import type { Estimate } from '../statistics/estimate.js';
import type { Scenario } from '../scenario/schema/scenario.js';
import type { Difference } from './results.js';

/** From which size on a difference matters, as the scenario has it. */
export type Interest = Scenario['smallestDifference'];

/** What is judged: a difference with its interval, and from which size on it matters. */
export type Judged = Pick<Difference, 'estimate' | 'smallest'>;

/**
 * The smallest difference of interest in the unit of the measure.
 * @param mean of the first strategy, which times, tips and cost are a share of
 */
export function smallestOf(measure: Difference['measure'], interest: Interest, mean: number): number {
  switch (measure) {
    case 'time':
    case 'operatorTime':
    case 'tips':
    case 'cost':
      return interest[measure] * Math.abs(mean);
    case 'yield':
      return interest.yield;
    case 'undetectedBadShare':
      return interest.undetectedBad;
    case 'withinAllocation':
    case 'finishes':
      return interest.completion;
  }
}

/** Whether an interval excludes 0. */
export function isClear({ low, high }: Pick<Estimate, 'low' | 'high'>): boolean {
  return low > 0 || high < 0;
}

/**
 * Size and certainty of a difference, judged apart (GRADE guidelines 26, J. Clin. Epidemiol. 119, 126, 2020): `matters` where it
 * is clear and larger than what is of interest, `little` where it is smaller or what is larger is ruled out, else `unclear`.
 */
export function judged({ estimate, smallest }: Judged): 'matters' | 'little' | 'unclear' {
  if (isClear(estimate)) return Math.abs(estimate.value) > smallest ? 'matters' : 'little';
  return Math.max(-estimate.low, estimate.high) <= smallest ? 'little' : 'unclear';
}

export function matters(difference: Judged | undefined): boolean {
  return difference !== undefined && judged(difference) === 'matters';
}
