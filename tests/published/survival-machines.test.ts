import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { aalenJohansen } from '../../src/survival/aalen-johansen.js';
import { weibullScaleBound } from '../../src/survival/few-events.js';
import { survivalOf } from '../../src/survival/fit-life.js';
import { kaplanMeier } from '../../src/survival/kaplan-meier.js';
import { forCause, type Observation } from '../../src/survival/observation.js';
import { curveAt, turnbull } from '../../src/survival/turnbull.js';
import { publishedCase } from '../support/check-values.js';
import { tabled } from '../support/made-lives.js';
import { expectIncidence, incidenceBlock } from '../support/published-incidence.js';
import {
  curveBlock,
  expectCurve,
  expectNear,
  expectWeibull,
  fitted,
  weibullBlock,
} from '../support/published-lives.js';

const pair = z.tuple([z.number(), z.number()]);
const modes = z.object({ km: z.array(z.number()), mode: z.array(z.number()) });

function shockAbsorbers({ km, mode }: z.output<typeof modes>) {
  return tabled(km, mode).map((one, i) => ({ ...one, cause: mode[i] === 0 ? null : String(mode[i]) }));
}

describe('life analysis against machines', () => {
  // NAG Library manual, g07bef: A. J. Gross and V. A. Clark, Survival Distributions (1975), p. 105. S(t) = exp(-λ t^γ), β = ln λ.
  it('fits 20 relief times in the parameters of another library', () => {
    const { inputs, expected } = publishedCase(
      'nag-g07be-weibull',
      z.object({ times: z.array(z.number()) }),
      z.object({
        beta_log_lambda: z.number(),
        gamma: z.number(),
        se_beta: z.number(),
        se_gamma: z.number(),
        corr: z.number(),
        loglik: z.number(),
        scale: z.number(),
        shape_ci_profile: pair,
      }),
    );
    const fit = fitted('weibull', tabled(inputs.times));
    const [shape, scale] = fit.parameters;
    const logScale = Math.log(scale.value);
    expectNear(shape.value, expected.gamma, 1e-4, 'gamma');
    expectNear(scale.value, expected.scale, 1e-4, 'scale');
    expectNear(-shape.value * logScale, expected.beta_log_lambda, 1e-4, 'beta');
    expectNear(fit.logLikelihood, expected.loglik, 1e-4, 'log-likelihood');
    expectNear(shape.low, expected.shape_ci_profile[0], 1e-4, 'lower end of gamma');
    expectNear(shape.high, expected.shape_ci_profile[1], 1e-4, 'upper end of gamma');
    // By the delta method: gamma = exp(a), beta = -exp(a) b, for the free a = ln shape and b = ln scale.
    const [[aa, ab], [, bb]] = fit.covariance;
    const square = shape.value * shape.value;
    const gamma = Math.sqrt(square * aa);
    const beta = Math.sqrt(square * (logScale * logScale * aa + 2 * logScale * ab + bb));
    expectNear(gamma, expected.se_gamma, 1e-4, 'standard error of gamma');
    expectNear(beta, expected.se_beta, 1e-4, 'standard error of beta');
    expectNear((-square * (logScale * aa + ab)) / (gamma * beta), expected.corr, 1e-4, 'correlation');
  });

  // W. Q. Meeker and L. A. Escobar, Statistical Methods for Reliability Data (1998), Table C.5 and Example 8.16.
  it('fits 6 failures among 1703 bearing cages', () => {
    const { inputs, expected } = publishedCase(
      'bearing-cage-heavy-censoring',
      z.object({ times: z.array(z.number()), event: z.array(z.number()), count: z.array(z.number()) }),
      weibullBlock,
    );
    const lives = tabled(inputs.times, inputs.event, inputs.count);
    expect(lives).toHaveLength(1703);
    expectWeibull(lives, expected);
  });

  // W. Nelson, Applied Life Data Analysis (1982); digits with R 4.2.2 and survival 3.5-3.
  it('fits locomotive controls of which 59 in 96 were still at work', () => {
    const { inputs, expected } = publishedCase(
      'locomotive-lognormal',
      z.object({ failures: z.array(z.number()), censored_at: z.number(), n_censored: z.number() }),
      z.object({
        lognormal: z.object({
          mu: z.number(),
          sigma: z.number(),
          loglik: z.number(),
          se_mu: z.number(),
          se_log_sigma: z.number(),
          aic: z.number(),
        }),
        weibull: z.object({ shape: z.number(), scale: z.number(), aic: z.number(), shape_ci_profile: pair }),
        exponential: z.object({ mean: z.number(), aic: z.number() }),
        fraction_failing_by_80: z.number(),
      }),
    );
    const lives = [...tabled(inputs.failures), ...tabled([inputs.censored_at], [0], [inputs.n_censored])];
    const lognormal = fitted('lognormal', lives);
    expectNear(Math.log(lognormal.parameters[0].value), expected.lognormal.mu, 1e-5, 'mu');
    expectNear(Math.log(lognormal.parameters[1].value), expected.lognormal.sigma, 1e-5, 'sigma');
    expectNear(lognormal.logLikelihood, expected.lognormal.loglik, 1e-5, 'log-likelihood');
    expectNear(lognormal.aic, expected.lognormal.aic, 1e-5, 'AIC');
    expectNear(Math.sqrt(lognormal.covariance[0][0]), expected.lognormal.se_mu, 1e-5, 'standard error of mu');
    expectNear(Math.sqrt(lognormal.covariance[1][1]), expected.lognormal.se_log_sigma, 1e-5, 'that of ln sigma');
    expectNear(1 - survivalOf(lognormal)(80), expected.fraction_failing_by_80, 1e-5, 'share failed by 80');
    const weibull = fitted('weibull', lives);
    expectNear(weibull.parameters[0].value, expected.weibull.shape, 1e-5, 'shape');
    expectNear(weibull.parameters[1].value, expected.weibull.scale, 1e-5, 'scale');
    expectNear(weibull.parameters[0].low, expected.weibull.shape_ci_profile[0], 1e-5, 'lower end of the shape');
    expectNear(weibull.parameters[0].high, expected.weibull.shape_ci_profile[1], 1e-5, 'upper end of the shape');
    expectNear(weibull.aic, expected.weibull.aic, 1e-5, 'AIC');
    expectNear(fitted('exponential', lives).parameters[0].value, expected.exponential.mean, 1e-5, 'mean');
  });

  // P. D. T. O'Connor 1985; Meeker and Escobar (1998), Table C.2; digits with R 4.2.2 and survival 3.5-3.
  it('fits 38 shock absorbers', () => {
    const { inputs, expected } = publishedCase(
      'shock-absorber-km-weibull',
      modes,
      z.object({
        weibull: weibullBlock,
        lognormal: z.object({ mu: z.number(), sigma: z.number(), aic: z.number() }),
        kaplan_meier: curveBlock,
      }),
    );
    const lives = tabled(inputs.km, inputs.mode);
    expectWeibull(lives, expected.weibull);
    expectCurve(lives, expected.kaplan_meier);
    const lognormal = fitted('lognormal', lives);
    expectNear(Math.log(lognormal.parameters[0].value), expected.lognormal.mu, 1e-5, 'mu');
    expectNear(Math.log(lognormal.parameters[1].value), expected.lognormal.sigma, 1e-5, 'sigma');
    expectNear(lognormal.aic, expected.lognormal.aic, 1e-5, 'AIC');
  });

  it('fits each of their two modes, the other censoring', () => {
    const { inputs, expected } = publishedCase(
      'shock-absorber-cause-specific-weibull',
      modes,
      z.object({ mode1: weibullBlock, mode2: weibullBlock, sum_loglik: z.number() }),
    );
    const lives = shockAbsorbers(inputs);
    expectWeibull(forCause(lives, '1'), expected.mode1);
    expectWeibull(forCause(lives, '2'), expected.mode2);
    const together = ['1', '2'].reduce((sum, mode) => sum + fitted('weibull', forCause(lives, mode)).logLikelihood, 0);
    expectNear(together, expected.sum_loglik, 1e-5, 'log-likelihood of both');
  });

  it('shares the failures among their two modes', () => {
    const { inputs, expected } = publishedCase('shock-absorber-aalen-johansen', modes, incidenceBlock);
    expectIncidence(aalenJohansen(shockAbsorbers(inputs), ['1', '2'], 0.95), expected);
  });

  // M. V. Aarset 1987, IEEE Trans. Reliability R-36:106.
  it('fits 50 devices that die as a bathtub, and does not call them worn out', () => {
    const { inputs, expected } = publishedCase(
      'aarset-bathtub',
      z.object({ times: z.array(z.number()) }),
      z.object({
        weibull: z.object({
          shape: z.number(),
          scale: z.number(),
          loglik: z.number(),
          aic: z.number(),
          shape_ci_profile: pair,
        }),
        exponential: z.object({ mean: z.number(), loglik: z.number(), aic: z.number() }),
      }),
    );
    const lives = tabled(inputs.times);
    const weibull = fitted('weibull', lives);
    const [shape, scale] = weibull.parameters;
    expectNear(shape.value, expected.weibull.shape, 1e-6, 'shape');
    expectNear(scale.value, expected.weibull.scale, 1e-6, 'scale');
    expectNear(weibull.aic, expected.weibull.aic, 1e-6, 'AIC');
    expectNear(shape.low, expected.weibull.shape_ci_profile[0], 1e-6, 'lower end');
    expectNear(shape.high, expected.weibull.shape_ci_profile[1], 1e-6, 'upper end');
    const exponential = fitted('exponential', lives);
    expectNear(exponential.parameters[0].value, expected.exponential.mean, 1e-6, 'mean');
    expectNear(exponential.aic, expected.exponential.aic, 1e-6, 'AIC');
  });

  // Meeker and Escobar (1998), chapters 1 and 3: heat-exchanger tubes of plant 1.
  it('fits cracks found at yearly looks', () => {
    const { inputs, expected } = publishedCase(
      'heat-exchanger-interval',
      z.object({ intervals: z.array(pair), found: z.array(z.number()), censored_at_3: z.number() }),
      z.object({ F: z.array(z.number()), shape: z.number(), scale: z.number(), loglik: z.number() }),
    );
    const lives: Observation[] = [
      ...inputs.intervals.flatMap(([from, to], i) =>
        Array.from({ length: inputs.found[i] }, () => ({ entry: 0, from, to })),
      ),
      ...tabled([3], [0], [inputs.censored_at_3]),
    ];
    const curve = turnbull(lives);
    expect(curve.converged).toBe(true);
    expected.F.forEach((failed, i) => {
      expect(curveAt(curve, i + 1)).toBeCloseTo(1 - failed, 12);
    });
    const fit = fitted('weibull', lives);
    expectNear(fit.parameters[0].value, expected.shape, 1e-3, 'shape');
    expectNear(fit.parameters[1].value, expected.scale, 1e-3, 'scale');
    expect(Math.abs(fit.logLikelihood - expected.loglik)).toBeLessThan(1e-4);
  });

  // Ten made rows; digits with R 4.2.2 and survival 3.5-3.
  it('fits parts that were in use when their log began', () => {
    const { inputs, expected } = publishedCase(
      'left-truncation-small',
      z.object({ entry: z.array(z.number()), exit: z.array(z.number()), event: z.array(z.number()) }),
      z.object({
        km: z.object({
          time: z.array(z.number()),
          n_risk: z.array(z.number()),
          surv: z.array(z.number()),
          se: z.array(z.number()),
        }),
        weibull: z.object({ shape: z.number(), scale: z.number(), loglik: z.number() }),
      }),
    );
    const lives = tabled(inputs.exit, inputs.event).map((one, i) => ({ ...one, entry: inputs.entry[i] }));
    const steps = kaplanMeier(lives, 0.95).filter(({ events }) => events > 0);
    expect(steps.map(({ time }) => time)).toEqual(expected.km.time);
    expect(steps.map(({ atRisk }) => atRisk)).toEqual(expected.km.n_risk);
    steps.forEach(({ survival, standardError }, i) => {
      expect(Math.abs(survival - expected.km.surv[i])).toBeLessThan(1e-9);
      expect(Math.abs((standardError ?? NaN) - expected.km.se[i])).toBeLessThan(1e-6);
    });
    const fit = fitted('weibull', lives);
    expectNear(fit.parameters[0].value, expected.weibull.shape, 1e-4, 'shape');
    expectNear(fit.parameters[1].value, expected.weibull.scale, 1e-4, 'scale');
    expectNear(fit.logLikelihood, expected.weibull.loglik, 1e-4, 'log-likelihood');
  });

  // R. B. Abernethy, The New Weibull Handbook, chapter 6.
  it('bounds a Weibull scale whose shape is assumed', () => {
    const { inputs, expected } = publishedCase(
      'weibayes',
      z.array(
        z.object({ times: z.array(z.number()), failures: z.number(), shape: z.number(), confidence: z.number() }),
      ),
      z.array(z.number()),
    );
    inputs.forEach(({ times, failures, shape, confidence }, i) => {
      const lives = tabled(
        times,
        times.map((_, k) => (k < failures ? 1 : 0)),
      );
      expectNear(weibullScaleBound(lives, shape, confidence), expected[i], 1e-8, 'lower end of the scale');
    });
  });

  // The same book, Fig. 2-5, whose printed 2.024 and 94.998 are by rank regression; the likelihood's with R 4.2.2 and survival 3.5-3.
  it('fits five failures and three suspensions by likelihood, not by ranks', () => {
    const { inputs, expected } = publishedCase(
      'abernethy-fig2-5-mle-vs-rank-regression',
      z.object({ failures: z.array(z.number()), suspensions: z.array(z.number()) }),
      z.object({ mle: z.object({ shape: z.number(), scale: z.number(), loglik: z.number() }) }),
    );
    const lives = [...tabled(inputs.failures), ...tabled(inputs.suspensions, [0, 0, 0])];
    const fit = fitted('weibull', lives);
    expectNear(fit.parameters[0].value, expected.mle.shape, 1e-5, 'shape');
    expectNear(fit.parameters[1].value, expected.mle.scale, 1e-5, 'scale');
    expectNear(fit.logLikelihood, expected.mle.loglik, 1e-5, 'log-likelihood');
  });
});
