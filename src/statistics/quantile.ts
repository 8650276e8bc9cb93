import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import type { OrderStatistics } from './order-statistics.js';

/** Ranks, counted from 1, whose order statistics enclose a quantile; null where the sample is too small for that limit. */
export interface OrderStatisticRanks {
  readonly r: number | null;
  readonly s: number | null;
  /** Exact confidence; null unless both limits exist. */
  readonly coverage: number | null;
}

/** A sample quantile (type 7 of Hyndman and Fan) with a distribution-free interval; null where the sample is too small for a limit. */
export interface QuantileInterval {
  readonly value: number;
  readonly low: number | null;
  readonly high: number | null;
}

/** The least whole number in [low, high] for which a condition that never turns false again holds; high if none before. */
function leastThat(holds: (k: number) => boolean, low: number, high: number): number {
  let below = low;
  let above = high;
  while (below < above) {
    const middle = Math.floor((below + above) / 2);
    if (holds(middle)) above = middle;
    else below = middle + 1;
  }
  return above;
}

/**
 * P(X(r) <= quantile < X(s)) for the p-quantile of a continuous distribution and a sample of n: P(r <= B < s), B binomial (n, p).
 * W. J. Conover, Practical Nonparametric Statistics, 3rd ed. (1999), section 3.2.
 */
export function orderStatisticCoverage(n: number, p: number, r: number, s: number): number {
  return binomialCdf(s - 1, n, p) - binomialCdf(r - 1, n, p);
}

/**
 * Ranks of the equal-tailed distribution-free interval of the p-quantile: r largest with P(B <= r-1) <= α/2, s smallest with
 * P(B >= s) <= α/2. H. A. David and H. N. Nagaraja, Order Statistics, 3rd ed., section 7.1.
 * @param n sample size
 * @param p in (0, 1)
 * @param level confidence level in (0, 1)
 */
export function orderStatisticRanks(n: number, p: number, level: number): OrderStatisticRanks {
  const tail = (1 - level) / 2;
  const lower = leastThat((rank) => binomialCdf(rank, n, p) > tail, 0, n);
  const upper = leastThat((rank) => 1 - binomialCdf(rank - 1, n, p) <= tail, 1, n + 1);
  const r = lower === 0 ? null : lower;
  const s = upper === n + 1 ? null : upper;
  return { r, s, coverage: r === null || s === null ? null : orderStatisticCoverage(n, p, r, s) };
}

/**
 * Sample quantile of type 7, R's default: linear between the order statistics at (n - 1)p (R. J. Hyndman and Y. Fan, Am. Stat. 50, 361,
 * 1996).
 * @param sample at least one value
 * @param p in [0, 1]
 * @throws RangeError for an empty sample
 */
export function quantileOf(sample: OrderStatistics, p: number): number {
  if (sample.length === 0) throw new RangeError('a quantile needs at least one value');
  const place = (sample.length - 1) * p;
  const below = sample.at(Math.floor(place) + 1);
  const above = sample.at(Math.ceil(place) + 1);
  return below + (place - Math.floor(place)) * (above - below);
}

/**
 * Sample quantile with its order-statistic interval.
 * @param sample at least one value
 */
export function quantileInterval(sample: OrderStatistics, p: number, level: number): QuantileInterval {
  const { r, s } = orderStatisticRanks(sample.length, p, level);
  return {
    value: quantileOf(sample, p),
    low: r === null ? null : sample.at(r),
    high: s === null ? null : sample.at(s),
  };
}
