import { expect } from 'vitest';
import { z } from 'zod';
import { type FittedDistribution } from '../../src/survival/distributions.js';
import { fitLife, type LifeFit, meanOf } from '../../src/survival/fit-life.js';
import { curveQuantile, kaplanMeier } from '../../src/survival/kaplan-meier.js';
import { lifeQuantile } from '../../src/survival/life-quantile.js';
import { nelsonAalen } from '../../src/survival/nelson-aalen.js';
import type { Observation } from '../../src/survival/observation.js';
import { departure } from './check-values.js';

const ends = z.tuple([z.number(), z.number()]);

/** A Weibull fit as the check values give it. */
export const weibullBlock = z.object({
  shape: z.number(),
  scale: z.number(),
  loglik: z.number(),
  se_log_shape: z.number(),
  se_log_scale: z.number(),
  cov_logscale_logshape: z.number(),
  se_shape: z.number(),
  se_scale: z.number(),
  shape_ci_lognormal_wald: ends,
  scale_ci_lognormal_wald: ends,
  shape_ci_profile: ends,
  scale_ci_profile: ends,
  b10: z.number(),
  b10_ci_profile: ends,
  mean: z.number(),
  median: z.number(),
  aic: z.number(),
  lr_test_vs_exponential: z.object({ statistic: z.number(), exp_loglik: z.number(), exp_mean: z.number() }),
});

/** A Kaplan-Meier table as the check values give it: rows at events only, null where a value is not defined. */
export const curveBlock = z.object({
  time: z.array(z.number()),
  n_risk: z.array(z.number()),
  n_event: z.array(z.number()),
  surv: z.array(z.number()),
  greenwood_se: z.array(z.number().nullable()),
  ci_loglog_lower: z.array(z.number().nullable()),
  ci_loglog_upper: z.array(z.number().nullable()),
  nelson_aalen: z.array(z.number()),
  nelson_aalen_var_aalen: z.array(z.number()),
  median: z.number().nullable(),
  median_ci_loglog: z.tuple([z.number().nullable(), z.number().nullable()]),
});

export const timesAndEvents = z.object({ times: z.array(z.number()), event: z.array(z.number()) });

export function expectNear(value: number | null | undefined, expected: number, tolerance: number, what: string): void {
  expect(value, what).toBeTypeOf('number');
  expect(departure(value ?? NaN, expected), `${what}: ${value} for ${expected}`).toBeLessThanOrEqual(tolerance);
}

/** Within an absolute tolerance, or both not defined. */
function expectClose(value: number | null, expected: number | null, tolerance: number, what: string): void {
  if (expected === null || value === null) expect(value, what).toBe(expected);
  else expect(Math.abs(value - expected), what).toBeLessThanOrEqual(tolerance);
}

/** A fit at 95 % that must succeed. */
export function fitted(distribution: FittedDistribution, observations: readonly Observation[]): LifeFit {
  const fit = fitLife(distribution, observations, 0.95);
  if (!fit.converged) throw new Error(`no ${distribution} fit: ${fit.reason}`);
  return fit;
}

/** Holds a Weibull fit to a block, to the tolerances that stand beside all of them. */
export function expectWeibull(observations: readonly Observation[], expected: z.output<typeof weibullBlock>): void {
  const fit = fitted('weibull', observations);
  const [shape, scale] = fit.parameters;
  expectNear(shape.value, expected.shape, 1e-5, 'shape');
  expectNear(scale.value, expected.scale, 1e-5, 'scale');
  expectNear(fit.logLikelihood, expected.loglik, 1e-5, 'log-likelihood');
  expectNear(fit.aic, expected.aic, 1e-5, 'AIC');
  expectNear(meanOf(fit), expected.mean, 1e-5, 'mean');
  const errors = fit.covariance.map((row, i) => Math.sqrt(row[i]));
  expectNear(errors[0], expected.se_log_shape, 1e-4, 'standard error of ln shape');
  expectNear(errors[1], expected.se_log_scale, 1e-4, 'standard error of ln scale');
  expectNear(errors[0] * shape.value, expected.se_shape, 1e-4, 'standard error of the shape');
  expectNear(errors[1] * scale.value, expected.se_scale, 1e-4, 'standard error of the scale');
  expectNear(fit.covariance[0][1], expected.cov_logscale_logshape, 1e-4, 'covariance');
  const intervals = [
    { ends: expected.shape_ci_profile, own: shape },
    { ends: expected.scale_ci_profile, own: scale },
    { ends: expected.b10_ci_profile, own: lifeQuantile(fit, observations, 0.1) },
  ];
  for (const {
    ends: [low, high],
    own,
  } of intervals) {
    expectNear(own.low, low, 1e-4, 'lower end');
    expectNear(own.high, high, 1e-4, 'upper end');
  }
  expectNear(lifeQuantile(fit, observations, 0.1).value, expected.b10, 1e-5, 'tenth percentile');
  expectNear(lifeQuantile(fit, observations, 0.5).value, expected.median, 1e-5, 'median');
  const constant = fitted('exponential', observations);
  expectNear(constant.parameters[0].value, expected.lr_test_vs_exponential.exp_mean, 1e-5, 'mean of the exponential');
  const ratio = 2 * (fit.logLikelihood - constant.logLikelihood);
  expectClose(ratio, expected.lr_test_vs_exponential.statistic, 1e-4, 'likelihood ratio');
}

/** Holds the curves with no distribution assumed to a block, to the tolerances that stand beside all of them. */
export function expectCurve(observations: readonly Observation[], expected: z.output<typeof curveBlock>): void {
  const all = kaplanMeier(observations, 0.95);
  const steps = all.filter(({ events }) => events > 0);
  const hazards = nelsonAalen(observations, 0.95).filter(({ events }) => events > 0);
  expect(steps.map(({ time }) => time)).toEqual(expected.time);
  expect(steps.map(({ atRisk }) => atRisk)).toEqual(expected.n_risk);
  expect(steps.map(({ events }) => events)).toEqual(expected.n_event);
  steps.forEach((step, i) => {
    const at = `at ${step.time}`;
    expectClose(step.survival, expected.surv[i], 1e-9, `survival ${at}`);
    expectClose(step.standardError, expected.greenwood_se[i], 1e-6, `standard error ${at}`);
    expectClose(step.low, expected.ci_loglog_lower[i], 1e-6, `lower end ${at}`);
    expectClose(step.high, expected.ci_loglog_upper[i], 1e-6, `upper end ${at}`);
    expectClose(hazards[i].cumulativeHazard, expected.nelson_aalen[i], 1e-9, `cumulative hazard ${at}`);
    expectClose(hazards[i].variance, expected.nelson_aalen_var_aalen[i], 1e-9, `its variance ${at}`);
  });
  const median = curveQuantile(all, 0.5);
  expect([median.value, median.low, median.high]).toEqual([expected.median, ...expected.median_ci_loglog]);
}
