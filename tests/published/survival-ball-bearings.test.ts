import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { compileLife } from '../../src/chance/life.js';
import { compareDistributions } from '../../src/survival/compare-distributions.js';
import { curveOf } from '../../src/survival/curve.js';
import { type Distance, distanceOf } from '../../src/survival/distance.js';
import { lifeOf } from '../../src/survival/fit-life.js';
import { goodnessOfFit } from '../../src/survival/goodness.js';
import { FITTED } from '../../src/survival/distributions.js';
import { uniforms } from '../support/chance.js';
import { publishedCase } from '../support/check-values.js';
import { tabled } from '../support/made-lives.js';
import { expectNear, expectWeibull, fitted, weibullBlock } from '../support/published-lives.js';
import { nonEmpty } from '../support/non-empty.js';

const times = z.object({ times: z.array(z.number()) });
const statistics = z.object({
  n: z.number(),
  D: z.number(),
  Dplus: z.number(),
  Dminus: z.number(),
  A2: z.number(),
  W2: z.number(),
});

function expectDistance(distance: Distance, expected: z.output<typeof statistics>, tolerance: number): void {
  expect(Math.abs(distance.largest - expected.D)).toBeLessThan(tolerance);
  expect(Math.abs(distance.above - expected.Dplus)).toBeLessThan(tolerance);
  expect(Math.abs(distance.below - expected.Dminus)).toBeLessThan(tolerance);
  expect(Math.abs(distance.andersonDarling - expected.A2)).toBeLessThan(tolerance);
  expect(Math.abs(distance.cramerVonMises - expected.W2)).toBeLessThan(tolerance);
}

// J. Lieblein and M. Zelen 1956, J. Res. NBS 57:273; digits with R 4.2.2, survival 3.5-3 and goftest 1.2-3, gamma with SciPy too.
describe('life analysis against 23 ball bearings', () => {
  it('fits and ranks four distributions', () => {
    const { inputs, expected } = publishedCase(
      'ballbearing-fits',
      times,
      z.object({
        weibull: weibullBlock,
        lognormal: z.object({
          mu: z.number(),
          sigma: z.number(),
          loglik: z.number(),
          se_mu: z.number(),
          se_log_sigma: z.number(),
          aic: z.number(),
        }),
        gamma: z.object({
          shape: z.number(),
          scale: z.number(),
          loglik: z.number(),
          aic: z.number(),
        }),
        exponential: z.object({
          mean: z.number(),
          loglik: z.number(),
          aic: z.number(),
          mean_ci_lr: z.tuple([z.number(), z.number()]),
        }),
        aic_order: z.array(z.string()),
      }),
    );
    const lives = tabled(inputs.times);
    expectWeibull(lives, expected.weibull);
    const lognormal = fitted('lognormal', lives);
    expectNear(Math.log(lognormal.parameters[0].value), expected.lognormal.mu, 1e-6, 'mu');
    expectNear(Math.log(lognormal.parameters[1].value), expected.lognormal.sigma, 1e-6, 'sigma');
    expectNear(lognormal.logLikelihood, expected.lognormal.loglik, 1e-6, 'log-likelihood');
    expectNear(lognormal.aic, expected.lognormal.aic, 1e-6, 'AIC');
    expectNear(Math.sqrt(lognormal.covariance[0][0]), expected.lognormal.se_mu, 1e-4, 'standard error of mu');
    expectNear(Math.sqrt(lognormal.covariance[1][1]), expected.lognormal.se_log_sigma, 1e-4, 'that of ln sigma');
    const gamma = fitted('gamma', lives);
    expectNear(gamma.parameters[0].value, expected.gamma.shape, 1e-4, 'shape');
    expectNear(gamma.parameters[1].value, expected.gamma.scale, 1e-4, 'scale');
    expectNear(gamma.logLikelihood, expected.gamma.loglik, 1e-4, 'log-likelihood');
    // The case's standard errors (0.283652, 0.302192) carry the differences of the optimiser they were taken from. At its estimates the
    // information is known in closed form, n a² ψ'(a), n a and n for ln a and ln scale, which gives these:
    const closedForm = { shape: 0.2835125047160278, scale: 0.301960726873886 };
    expectNear(Math.sqrt(gamma.covariance[0][0]), closedForm.shape, 1e-5, 'standard error of ln shape');
    expectNear(Math.sqrt(gamma.covariance[1][1]), closedForm.scale, 1e-5, 'that of ln scale');
    const [mean] = fitted('exponential', lives).parameters;
    expectNear(mean.value, expected.exponential.mean, 1e-5, 'mean');
    expectNear(mean.low, expected.exponential.mean_ci_lr[0], 1e-4, 'lower end');
    expectNear(mean.high, expected.exponential.mean_ci_lr[1], 1e-4, 'upper end');
    const { ranked, verdict } = compareDistributions(lives, 0.95);
    expect(ranked.map(({ distribution }) => distribution)).toEqual(expected.aic_order);
    expect(verdict).toEqual({
      best: 'gamma',
      notToldApart: ['gamma', 'lognormal', 'weibull'],
      offered: 'gamma',
      reason: 'best',
      missing: 'events',
    });
  });

  // R. B. D'Agostino and M. A. Stephens, Goodness-of-Fit Techniques (1986), chapter 4.
  it('has the distances from the fitted distributions', () => {
    const { inputs, expected } = publishedCase(
      'ballbearing-gof-fitted',
      times,
      z.object({ weibull: statistics, lognormal: statistics, gamma: statistics, exponential: statistics }),
    );
    const lives = tabled(inputs.times);
    for (const distribution of FITTED) {
      const life = compileLife(lifeOf(fitted(distribution, lives)));
      expectDistance(distanceOf(curveOf(lives), life, lives.length), expected[distribution], 1e-6);
    }
  });

  it('has the distances from a distribution that was not fitted', () => {
    const { inputs, expected } = publishedCase('ballbearing-gof-specified', times, z.object({ statistics }));
    const life = compileLife({ distribution: 'weibull', shape: 2, scale: 80 });
    const lives = tabled(inputs.times);
    expectDistance(distanceOf(curveOf(lives), life, lives.length), expected.statistics, 1e-8);
  });

  it('keeps the Weibull distribution at 10 % and refuses the exponential at 1 %, as the tables for fitted distributions do', () => {
    const { inputs } = publishedCase('ballbearing-gof-fitted', times, z.looseObject({}));
    const lives = tabled(inputs.times);
    const draws = 4 * lives.length;
    const all = uniforms('goodness of ball bearings', 199 * draws);
    const uniform = (replication: number, index: number) => all[replication * draws + index];
    expect(goodnessOfFit(fitted('weibull', lives), lives, uniform, 199).andersonDarling?.pValue).toBeGreaterThan(0.1);
    expect(goodnessOfFit(fitted('exponential', lives), lives, uniform, 199).andersonDarling?.pValue).toBeLessThan(0.01);
  });

  // F. J. Massey 1951 (JASA 46:68) and L. H. Miller 1956 (JASA 51:111), digits with SciPy's kstwo.
  it('has distances from a known distribution that pass the tabled values as often as they should', () => {
    const { expected } = publishedCase(
      'ks-critical-values',
      z.looseObject({}),
      z.object({ by_n_then_alpha: z.record(z.string(), z.record(z.string(), z.number())) }),
    );
    const life = compileLife({ distribution: 'exponential', mean: 1 });
    for (const size of [5, 20]) {
      const replications = 500;
      const all = uniforms(`distances of ${size}`, replications * size);
      const largest = Array.from({ length: replications }, (_, i) => {
        const lives = tabled(all.slice(i * size, (i + 1) * size).map((u) => -Math.log(u)));
        return distanceOf(curveOf(lives), life, size).largest;
      });
      for (const [alpha, critical] of nonEmpty(Object.entries(expected.by_n_then_alpha[String(size)]))) {
        const share = largest.filter((one) => one > critical).length / replications;
        const standardError = Math.sqrt((Number(alpha) * (1 - Number(alpha))) / replications);
        // 500 replications, 8 comparisons: six standard errors and six counts, for the skew of a rare one, are passed by chance less than once in a million.
        expect(Math.abs(share - Number(alpha))).toBeLessThan(6 * standardError + 6 / replications);
      }
    }
  });
});
