import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { fitAccelerated } from '../../src/survival/accelerated.js';
import { exponentialInterval, totalExposure } from '../../src/survival/few-events.js';
import { logRank } from '../../src/survival/log-rank.js';
import { publishedCase } from '../support/check-values.js';
import { tabled } from '../support/made-lives.js';
import {
  curveBlock,
  expectCurve,
  expectNear,
  expectWeibull,
  fitted,
  weibullBlock,
} from '../support/published-lives.js';
import { nonEmpty } from '../support/non-empty.js';

const group = z.object({ weeks: z.array(z.number()), event: z.array(z.number()) });
const groups = z.object({ group_6mp: group, group_placebo: group });
const pair = z.tuple([z.number(), z.number()]);

// Freireich et al. 1963 (Blood 21:699), Gehan 1965 (Biometrika 52:203): remissions in weeks, with and without 6-MP; digits with R 4.2.2 and survival 3.5-3.
describe('life analysis against the remissions of Freireich and Gehan', () => {
  it('draws the curve of the treated', () => {
    const { inputs, expected } = publishedCase('gehan-6mp-km', group, curveBlock);
    expectCurve(tabled(inputs.weeks, inputs.event), expected);
  });

  it('draws the curve of the untreated, and tells the two apart by ranks', () => {
    const { inputs, expected } = publishedCase(
      'gehan-placebo-km-logrank',
      groups,
      z.object({
        placebo_km: curveBlock,
        logrank: z.object({ chisq: z.number(), df: z.number(), observed: pair, expected: pair }),
        peto_wilcoxon_rho1_chisq: z.number(),
      }),
    );
    const treated = tabled(inputs.group_6mp.weeks, inputs.group_6mp.event);
    const untreated = tabled(inputs.group_placebo.weeks, inputs.group_placebo.event);
    expectCurve(untreated, expected.placebo_km);
    const test = logRank([treated, untreated]);
    expect(Math.abs(test.chiSquare - expected.logrank.chisq)).toBeLessThan(1e-6);
    expect(test.degreesOfFreedom).toBe(expected.logrank.df);
    expect(test.observed).toEqual(expected.logrank.observed);
    test.expected.forEach((one, i) => {
      expect(Math.abs(one - expected.logrank.expected[i])).toBeLessThan(1e-6);
    });
    const early = logRank([treated, untreated], 'early');
    expect(Math.abs(early.chiSquare - expected.peto_wilcoxon_rho1_chisq)).toBeLessThan(1e-6);
  });

  it('fits constant hazards', () => {
    const arm = z.object({
      total_time: z.number(),
      failures: z.number(),
      mean: z.number(),
      loglik: z.number(),
      aic: z.number(),
      se_log_mean: z.number(),
      mean_ci_lr: pair,
      mean_ci_chisq_time_censored_2rplus2_2r: pair,
    });
    const { inputs, expected } = publishedCase('gehan-exponential', groups, z.object({ sixmp: arm, placebo: arm }));
    const arms = [
      { lives: tabled(inputs.group_6mp.weeks, inputs.group_6mp.event), of: expected.sixmp },
      { lives: tabled(inputs.group_placebo.weeks, inputs.group_placebo.event), of: expected.placebo },
    ];
    for (const { lives, of } of nonEmpty(arms)) {
      const fit = fitted('exponential', lives);
      const [mean] = fit.parameters;
      expect(totalExposure(lives)).toBe(of.total_time);
      expect(fit.events).toBe(of.failures);
      expectNear(mean.value, of.mean, 1e-6, 'mean');
      expectNear(fit.logLikelihood, of.loglik, 1e-6, 'log-likelihood');
      expectNear(fit.aic, of.aic, 1e-6, 'AIC');
      expectNear(Math.sqrt(fit.covariance[0][0]), of.se_log_mean, 1e-6, 'standard error');
      expectNear(mean.low, of.mean_ci_lr[0], 1e-5, 'lower end by likelihood ratio');
      expectNear(mean.high, of.mean_ci_lr[1], 1e-5, 'upper end by likelihood ratio');
      const exact = exponentialInterval(of.total_time, of.failures, 0.95);
      expectNear(exact.low, of.mean_ci_chisq_time_censored_2rplus2_2r[0], 1e-6, 'lower end by chi-square');
      expectNear(exact.high, of.mean_ci_chisq_time_censored_2rplus2_2r[1], 1e-6, 'upper end by chi-square');
    }
  });

  it('fits Weibull distributions to both, and what the lack of treatment does to a life', () => {
    const { inputs, expected } = publishedCase(
      'gehan-weibull',
      groups,
      z.object({
        sixmp: weibullBlock,
        placebo: weibullBlock,
        common_shape_aft: z.object({
          log_scale_6mp: z.number(),
          placebo_minus_6mp: z.number(),
          shape: z.number(),
          loglik: z.number(),
        }),
      }),
    );
    const treated = tabled(inputs.group_6mp.weeks, inputs.group_6mp.event);
    const untreated = tabled(inputs.group_placebo.weeks, inputs.group_placebo.event);
    expectWeibull(treated, expected.sixmp);
    expectWeibull(untreated, expected.placebo);
    const both = fitAccelerated(
      'weibull',
      [
        ...treated.map((one) => ({ ...one, lnPace: 0, lnLoad: 0 })),
        ...untreated.map((one) => ({ ...one, lnPace: 1, lnLoad: 0 })),
      ],
      0.95,
    );
    if (!both.converged) throw new Error(both.reason);
    const [shape, scale] = both.parameters;
    expectNear(shape.value, expected.common_shape_aft.shape, 1e-5, 'shape');
    expectNear(Math.log(scale.value), expected.common_shape_aft.log_scale_6mp, 1e-5, 'ln scale');
    // A life shortened is an exposure that counts for more.
    expectNear(-both.exponents[0].value, expected.common_shape_aft.placebo_minus_6mp, 1e-5, 'shift of ln life');
    expectNear(both.logLikelihood, expected.common_shape_aft.loglik, 1e-5, 'log-likelihood');
    expect(both.unvaried).toEqual(['load']);
  });
});
