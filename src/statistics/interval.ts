import studentQuantile from '@stdlib/stats-base-dists-t-quantile';
import { compensatedSum, less, type Numbers, squaredDeviations } from './numbers.js';

/** A mean with its confidence interval, in the unit of the values. */
export interface MeanInterval {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
  readonly halfWidth: number;
  readonly standardDeviation: number;
  readonly n: number;
}

/**
 * Student's t interval of a mean; sums are compensated (Kahan-Babuška), so that the order of magnitude of the values costs no digits.
 * @param values at least two
 * @param level confidence level in (0, 1)
 * @throws RangeError for fewer than two values
 */
export function meanInterval(values: Numbers, level: number): MeanInterval {
  const n = values.length;
  if (n < 2) throw new RangeError(`an interval of a mean needs at least two values, not ${n}`);
  const centre = compensatedSum(values) / n;
  const standardDeviation = Math.sqrt(squaredDeviations(values, centre) / (n - 1));
  const halfWidth = (studentQuantile((1 + level) / 2, n - 1) * standardDeviation) / Math.sqrt(n);
  return { mean: centre, low: centre - halfWidth, high: centre + halfWidth, halfWidth, standardDeviation, n };
}

/**
 * Interval of the mean difference a - b of pairs: right with common random numbers, where the two are correlated.
 * @throws RangeError unless both have the same length, at least two
 */
export function pairedInterval(a: Numbers, b: Numbers, level: number): MeanInterval {
  if (a.length !== b.length) throw new RangeError(`pairs need equal lengths, not ${a.length} and ${b.length}`);
  return meanInterval(less(a, b), level);
}

/** An interval that ends where what it is of can lie no further. */
export function endingAt<Interval extends Pick<MeanInterval, 'low' | 'high'>>(
  interval: Interval,
  least: number,
  most: number,
): Interval {
  return { ...interval, low: Math.max(least, interval.low), high: Math.min(most, interval.high) };
}

/**
 * The level at which each of several intervals is taken so that all hold together at `level` (Bonferroni).
 * @param intervals how many, at least 1
 */
export function bonferroni(level: number, intervals: number): number {
  return 1 - (1 - level) / intervals;
}
