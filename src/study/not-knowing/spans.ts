import { crossedVariance, expectedOfRows } from '../../statistics/crossed-variance.js';
import { meanInterval } from '../../statistics/interval.js';
import { quantileOf } from '../../statistics/quantile.js';
import { LEVEL } from '../differences.js';
import type { Span, Split } from './results.js';

/** The values between which the middle `LEVEL` of all lie. */
export function centralSpan(values: readonly number[]): Span {
  const sorted = [...values].sort((a, b) => a - b);
  return { low: quantileOf(sorted, (1 - LEVEL) / 2), high: quantileOf(sorted, (1 + LEVEL) / 2) };
}

/** A measure, or a difference, with what is not known drawn again and again. */
export interface Expected {
  /** At the scenario's values. */
  readonly mean: number;
  /** Its expected value in each draw, without the noise that its few replications leave. */
  readonly ofDraws: readonly number[];
  readonly span: Span;
  readonly variance: Split;
}

/**
 * What the expected value comes to over the draws: the mean of all replications at the scenario's values, plus the change
 * that a draw makes on the same luck. The mean change is that of the campaigns with a draw each, which meet more luck than
 * the rows do; what the few replications of a row leave uncertain is taken out of the spread.
 * @param rows for each draw its replications
 * @param single campaigns with a draw of their own
 * @param here all replications at the scenario's values, those of the rows and of the single campaigns first
 */
export function expectedOver(
  rows: readonly (readonly number[])[],
  single: readonly number[],
  here: readonly number[],
): Expected {
  const changes = crossedVariance(rows.map((row) => row.map((value, i) => value - here[i])));
  const meanChange = single.reduce((sum, value, i) => sum + value - here[i], 0) / single.length;
  const { mean, standardDeviation } = meanInterval(here, LEVEL);
  const ofDraws = expectedOfRows(changes).map((change) => mean + meanChange + (change - changes.mean));
  return {
    mean,
    ofDraws,
    span: centralSpan(ofDraws),
    variance: { luck: standardDeviation * standardDeviation, notKnowing: changes.ofRows },
  };
}
