import { type Numbers, total } from './numbers.js';

/**
 * Numbers whose mean is the ratio of two means, and whose spread is that of its linearisation (delta method; W. G. Cochran,
 * Sampling Techniques, 3rd ed., 1977, section 6.3): intervals of a mean, and of paired differences, serve for ratios with them.
 * @param over as many as `under`, at least one
 * @param under with a mean other than zero
 */
export function linearisedRatio(over: Numbers, under: Numbers): readonly number[] {
  const n = over.length;
  const meanUnder = total(under) / n;
  const ratio = total(over) / n / meanUnder;
  return Array.from(over, (value, i) => ratio + (value - ratio * under[i]) / meanUnder);
}

/**
 * The jackknifed ratio of the sums of a few pairs, whose bias falls with the square of their number (M. H. Quenouille, Biometrika
 * 43, 353, 1956).
 * @param over as many as `under`, at least two
 * @param under of which no sum without one is zero
 */
export function jackknifedRatio(over: Numbers, under: Numbers): number {
  const n = over.length;
  const [allOver, allUnder] = [total(over), total(under)];
  const without = total(Array.from(over, (value, i) => (allOver - value) / (allUnder - under[i])));
  return (n * allOver) / allUnder - ((n - 1) / n) * without;
}
