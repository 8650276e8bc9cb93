import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { exponentialInterval, totalExposure } from '../../src/survival/few-events.js';
import { type FittedDistribution, toFit } from '../../src/survival/distributions.js';
import { publishedCase } from '../support/check-values.js';
import { tabled } from '../support/made-lives.js';
import {
  curveBlock,
  expectCurve,
  expectNear,
  expectWeibull,
  fitted,
  timesAndEvents,
  weibullBlock,
} from '../support/published-lives.js';

// NIST/SEMATECH e-Handbook of Statistical Methods, sections 8.1.6, 8.2.1.5, 8.4.1.3 and 8.4.5.1; further digits with R 4.2.2 and survival 3.5-3.
describe('life analysis against the NIST handbook', () => {
  it('fits ten failures among twenty units cut off at 500 h', () => {
    const { inputs, expected } = publishedCase(
      'nist-8413-weibull-mle',
      timesAndEvents,
      z.object({
        weibull: weibullBlock,
        exponential: z.object({ total_time: z.number(), mean: z.number(), loglik: z.number(), aic: z.number() }),
        lognormal: z.object({ mu: z.number(), sigma: z.number(), loglik: z.number(), aic: z.number() }),
      }),
    );
    const lives = tabled(inputs.times, inputs.event);
    expectWeibull(lives, expected.weibull);
    const constant = fitted('exponential', lives);
    expect(totalExposure(lives)).toBe(expected.exponential.total_time);
    expectNear(constant.parameters[0].value, expected.exponential.mean, 1e-5, 'mean');
    expectNear(constant.aic, expected.exponential.aic, 1e-5, 'AIC');
    const lognormal = fitted('lognormal', lives);
    expectNear(Math.log(lognormal.parameters[0].value), expected.lognormal.mu, 1e-5, 'mu');
    expectNear(Math.log(lognormal.parameters[1].value), expected.lognormal.sigma, 1e-5, 'sigma');
    expectNear(lognormal.aic, expected.lognormal.aic, 1e-5, 'AIC');
  });

  it('draws the survival curve of six failures among twenty units', () => {
    const { inputs, expected } = publishedCase('nist-8215-kaplan-meier', timesAndEvents, curveBlock);
    expectCurve(tabled(inputs.times, inputs.event), expected);
  });

  it('bounds a mean life by chi-square', () => {
    const { inputs, expected } = publishedCase(
      'nist-8451-mtbf-ci',
      z.object({ total_time: z.number(), failures: z.number(), confidence: z.number() }),
      z.object({ mtbf: z.number(), lower: z.number(), upper: z.number() }),
    );
    const { mean, low, high } = exponentialInterval(inputs.total_time, inputs.failures, inputs.confidence);
    expect(mean).toBe(expected.mtbf);
    expectNear(low, expected.lower, 1e-6, 'lower end');
    expectNear(high, expected.upper, 1e-6, 'upper end');
  });

  it('has the factors of its table of bounds', () => {
    const { inputs, expected } = publishedCase(
      'nist-8451-mtbf-factors-90',
      z.object({ confidence: z.number(), r: z.array(z.number()) }),
      z.object({ lower_factor: z.array(z.number()), upper_factor: z.array(z.number()) }),
    );
    inputs.r.forEach((events, i) => {
      const { low, high } = exponentialInterval(events, events, inputs.confidence);
      expectNear(low, expected.lower_factor[i], 1e-6, `lower factor of ${events}`);
      expectNear(high, expected.upper_factor[i], 1e-6, `upper factor of ${events}`);
    });
  });

  it('bounds a mean life from below where nothing failed, and gives neither a best value nor an upper end', () => {
    const { inputs, expected } = publishedCase(
      'nist-8451-zero-failures',
      z.array(z.object({ T: z.number(), one_sided_confidence: z.number() })),
      z.array(z.object({ lower: z.number() })),
    );
    inputs.forEach(({ T, one_sided_confidence: confidence }, i) => {
      const { mean, low, high } = exponentialInterval(T, 0, confidence);
      expectNear(low, expected[i].lower, 1e-9, 'lower end');
      expect([mean, high]).toEqual([null, null]);
    });
  });

  it('has the densities worked out there', () => {
    const { inputs, expected } = publishedCase(
      'nist-816-distribution-values',
      z.object({
        weibull: z.object({ t: z.number(), shape: z.number(), scale: z.number() }),
        lognormal: z.object({ t: z.number(), median: z.number(), sigma: z.number() }),
        gamma: z.object({ t: z.number(), shape: z.number(), scale: z.number() }),
      }),
      z.object({
        weibull: z.object({ pdf: z.number() }),
        lognormal: z.object({ pdf: z.number() }),
        gamma: z.object({ pdf: z.number() }),
      }),
    );
    const { weibull, lognormal, gamma } = inputs;
    const density = (distribution: FittedDistribution, values: number[], t: number) =>
      Math.exp(toFit(distribution).logDensity(values)(t));
    expectNear(density('weibull', [weibull.shape, weibull.scale], weibull.t), expected.weibull.pdf, 1e-9, 'Weibull');
    const geometricSd = Math.exp(lognormal.sigma);
    expectNear(
      density('lognormal', [lognormal.median, geometricSd], lognormal.t),
      expected.lognormal.pdf,
      1e-9,
      'lognormal',
    );
    expectNear(density('gamma', [gamma.shape, gamma.scale], gamma.t), expected.gamma.pdf, 1e-9, 'gamma');
  });
});
