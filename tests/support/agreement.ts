import { expect } from 'vitest';
import { average, variance } from './chance.js';

const LIMIT = 6.5;

/**
 * Holds the mean of independent, identically distributed samples to an expected value: within 6.5 standard errors, which must
 * themselves be at most `power` (in the unit of the samples), so that a wrong mean would show.
 *
 * Chance of a false alarm: a normal deviate is beyond 6.5 once in 1.2e10 times. The samples are skewed, with skewness g at most 2
 * (that of an exponential), and their error is estimated: by Cramér's correction exp(g·6.5³/(6√n)) this raises the chance by
 * less than 100 times from 500 samples on, to less than once in 1e8. A file of up to 50 such comparisons fails by chance less
 * than once in 2 million seeds, and the seeds are fixed. Shares need 150 expected cases of either kind for this.
 */
export function expectMean(samples: readonly number[], expected: number, power: number, what = 'mean'): void {
  const error = Math.sqrt(variance(samples) / samples.length);
  expect(error, `standard error of ${what}`).toBeGreaterThan(0);
  expect(error, `standard error of ${what}`).toBeLessThanOrEqual(power);
  expect(
    Math.abs(average(samples) - expected) / error,
    `${what}: ${average(samples)} against ${expected}`,
  ).toBeLessThan(LIMIT);
}
