import { meanInterval } from '../../../statistics/interval.js';
import { expectedOfGroups, nestedVariance } from '../../../statistics/nested-variance.js';
import type { Numbers } from '../../../statistics/numbers.js';
import { OrderStatistics } from '../../../statistics/order-statistics.js';
import { quantileOf } from '../../../statistics/quantile.js';
import { LEVEL } from '../../../analysis/differences.js';
import type { Span, Split } from '../../../analysis/parameter-uncertainty.js';

/** The values between which the middle `LEVEL` of all lie. */
export function centralSpan(values: Numbers): Span {
  const sample = new OrderStatistics(values);
  return { low: quantileOf(sample, (1 - LEVEL) / 2), high: quantileOf(sample, (1 + LEVEL) / 2) };
}

/** A measure, or a difference, with parameter uncertainty drawn again and again. */
export interface Expected {
  /** At the scenario's values. */
  readonly mean: number;
  /** Its expected value in each draw, without the noise that its few replications leave. */
  readonly ofDraws: readonly number[];
  readonly span: Span;
  readonly variance: Split;
}

/**
 * What the expected value comes to over the draws: the mean of the comparison, plus the change that each draw makes on the
 * same luck. What the few replications of a draw leave uncertain is taken out of the spread.
 * @param compared all replications of the comparison
 * @param drawn values of all draws, draw by draw
 * @param here values at the scenario's values, with common random numbers
 * @param draws how many
 */
export function expectedOver(compared: Numbers, drawn: Numbers, here: Numbers, draws: number): Expected {
  const size = drawn.length / draws;
  const changes = nestedVariance(
    Array.from({ length: draws }, (_, draw) =>
      Array.from({ length: size }, (__, i) => drawn[draw * size + i] - here[draw * size + i]),
    ),
  );
  const { mean, standardDeviation } = meanInterval(compared, LEVEL);
  const ofDraws = expectedOfGroups(changes).map((change) => mean + change);
  return {
    mean,
    ofDraws,
    span: centralSpan(ofDraws),
    variance: { random: standardDeviation * standardDeviation, parameterUncertainty: changes.between },
  };
}
