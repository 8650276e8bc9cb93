import { gammaincinv } from '../../src/chance/elementary.js';
import type { LifeDistribution } from '../../src/chance/life.js';
import { type Luck, LuckTable, PURPOSES, type Purpose } from '../../src/chance/luck.js';

/** The value that a chi-square variable passes with probability p (its tables are checked in tests/published/quantiles.test.ts). */
export function chiSquareUpper(p: number, freedom: number): number {
  return 2 * gammaincinv(p, freedom / 2, true);
}

/** n uniform draws of one purpose along the running index d. */
export function uniforms(seed: string, n: number, c = 0, purpose: Purpose = PURPOSES.life): number[] {
  const luck: Luck = new LuckTable(seed).replication(0);
  return Array.from({ length: n }, (_, d) => luck.uniform(purpose, 0, 0, c, d));
}

/** n lives of a distribution, by its inverse distribution function. */
export function lives(distribution: LifeDistribution, seed: string, n: number, c = 0): number[] {
  return uniforms(seed, n, c).map((u) => distribution.exposureAt(-Math.log1p(-u)));
}

export function average(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

export function variance(values: readonly number[]): number {
  const centre = average(values);
  return values.reduce((sum, value) => sum + (value - centre) ** 2, 0) / (values.length - 1);
}

export function correlation(a: readonly number[], b: readonly number[]): number {
  const [meanA, meanB] = [average(a), average(b)];
  const covariance = average(a.map((value, i) => (value - meanA) * (b[i] - meanB)));
  return (covariance * a.length) / (a.length - 1) / Math.sqrt(variance(a) * variance(b));
}
