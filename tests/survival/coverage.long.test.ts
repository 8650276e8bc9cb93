import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import { describe, expect, it } from 'vitest';
import { coverageOf, MADE_WITH } from './coverage.js';
import { nonEmpty } from '../support/non-empty.js';

const EVENTS = 20;
const LOGS = 100;

/** What the long run (coverage.md) shows at twenty events, less its own error: likelihood ratios are a little short in small logs. */
const TRUE_COVERAGE = 0.92;

describe('profile intervals', () => {
  // 100 bootstrap samples for each of 7 parameters. A count of those covered is refused where so few or fewer would come, at a coverage of 92 %, with a
  // chance below 1e-7: seven comparisons make that less than one in a million. Only the lower side is held.
  it.each(MADE_WITH)('hold the $distribution values that lives were made with about as often as they say', (life) => {
    for (const { parameter, fitted, covered } of nonEmpty(coverageOf(life, EVENTS, LOGS, 'short coverage'))) {
      expect(fitted, parameter).toBe(LOGS);
      expect(binomialCdf(covered, LOGS, TRUE_COVERAGE), `${parameter}: ${covered} of ${LOGS}`).toBeGreaterThan(1e-7);
    }
  });
});
