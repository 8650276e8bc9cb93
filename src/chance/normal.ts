import { erfcinv, exp, ln } from './elementary.js';

const SQRT_TWO = 1.4142135623730951;

/** Standard normal quantile: the z below which a share u lies, -√2 · erfc⁻¹(2u). */
export function normalQuantile(u: number): number {
  return -SQRT_TWO * erfcinv(2 * u);
}

/**
 * Lognormal variate by its inverse distribution function.
 * @param median in any unit, which is the unit of the result
 * @param geometricSd geometric standard deviation, at least 1
 * @param u uniform in (0, 1)
 */
export function lognormalAt(median: number, geometricSd: number, u: number): number {
  return geometricSd === 1 ? median : median * exp(ln(geometricSd) * normalQuantile(u));
}
