import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import { describe, expect, it } from 'vitest';
import { DRIFT_PARAMETERS } from '../../src/survival/drift-fit.js';
import type { DriftForm } from '../../src/survival/drift-likelihood.js';
import {
  DRIFT_ERRORS as ERRORS,
  fittedEvents as fitted,
  MADE_DRIFT as MADE_WITH,
  madeDrift as made,
} from '../support/made-drift.js';
import { nonEmpty } from '../support/non-empty.js';

const FORMS: readonly DriftForm[] = ['rate', 'displacement'];

describe('a fit of drift', () => {
  // 24 samples of 8 disturbances for each form; a count of intervals that hold is refused where so few or fewer would come, at a
  // coverage of 90 % (likelihood ratios are a little short in small samples), with a chance below 1e-7: ten comparisons, one in a million.
  it.each(FORMS)('finds in %ss what they were made with as often as its intervals say', (form) => {
    const SAMPLES = 24;
    const held = new Map<string, number>(DRIFT_PARAMETERS.map((name) => [name, 0]));
    for (let sample = 0; sample < SAMPLES; sample += 1) {
      const { parameters } = fitted(made(form, 'drift coverage', sample, 8), form);
      for (const name of DRIFT_PARAMETERS) {
        const { low, high } = parameters[name];
        const truth = name === 'error' ? ERRORS[form] : MADE_WITH[name];
        if ((low ?? 0) <= truth && truth <= (high ?? Infinity)) held.set(name, (held.get(name) ?? 0) + 1);
      }
    }
    for (const [name, count] of nonEmpty(held))
      expect(binomialCdf(count, SAMPLES, 0.9), `${name}: ${count} of ${SAMPLES}`).toBeGreaterThan(1e-7);
  });

  it.each(FORMS)('comes close with many %ss', (form) => {
    const { parameters, covariance } = fitted(made(form, 'drift many', 1, 60), form);
    const [rate, geometricSd, decay, steady] = DRIFT_PARAMETERS.map((name) => parameters[name].value);
    // Eight standard errors of 60 disturbances, of which the logs of first rates scatter by 0.41: a chance below 1e-14.
    const reach = (8 * Math.log(MADE_WITH.geometricSd)) / Math.sqrt(60);
    expect(Math.abs(Math.log(rate))).toBeLessThan(reach);
    expect(Math.abs(Math.log(Math.log(geometricSd) / Math.log(1.5)))).toBeLessThan(8 / Math.sqrt(120));
    [Math.log(decay / 600), Math.log(steady / 0.03)].forEach((off, i) => {
      expect(Math.abs(off)).toBeLessThan(8 * Math.sqrt(covariance[i + 2][i + 2]));
    });
  });
});
