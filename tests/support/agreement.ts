import { expect } from 'vitest';
import { average, variance } from './chance.js';

/**
 * Holds the mean of independent, identically distributed samples to an expected value: within `z` standard errors, which
 * must themselves be at most `power` (in the unit of the samples), so that a wrong mean would show.
 *
 * A normal deviate is beyond 5.5 once in 2.6e7 times: a file of up to 26 such comparisons fails by chance less than once in
 * a million seeds (and the seeds are fixed).
 */
export function expectMean(samples: readonly number[], expected: number, power: number, what = 'mean', z = 5.5): void {
  const error = Math.sqrt(variance(samples) / samples.length);
  expect(error, `standard error of ${what}`).toBeGreaterThan(0);
  expect(error, `standard error of ${what}`).toBeLessThanOrEqual(power);
  expect(
    Math.abs(average(samples) - expected) / error,
    `${what}: ${average(samples)} against ${expected}`,
  ).toBeLessThan(z);
}
