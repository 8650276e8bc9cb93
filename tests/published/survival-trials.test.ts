import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { aalenJohansen } from '../../src/survival/aalen-johansen.js';
import { curveQuantile, kaplanMeier } from '../../src/survival/kaplan-meier.js';
import { logRank } from '../../src/survival/log-rank.js';
import { publishedCase } from '../support/check-values.js';
import { expectIncidence, incidenceBlock } from '../support/published-incidence.js';
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

const pair = z.tuple([z.number(), z.number()]);

// Data sets of R's survival 3.5-3 and KMsurv 0.1-5; digits with R 4.2.2 and these, cumulative incidence with cmprsk 2.2-11 too.
describe('life analysis against clinical trials', () => {
  // Loprinzi et al. 1994, J. Clin. Oncol. 12:601.
  it('holds on 228 lives with ties', () => {
    const { inputs, expected } = publishedCase(
      'lung-weibull-km',
      z.object({ days: z.array(z.number()), event: z.array(z.number()) }),
      z.object({
        weibull: weibullBlock,
        lognormal: z.object({
          mu: z.number(),
          sigma: z.number(),
          se_mu: z.number(),
          se_log_sigma: z.number(),
          aic: z.number(),
        }),
        exponential: z.object({ mean: z.number(), aic: z.number() }),
        km: z.object({
          median: z.number(),
          median_ci_loglog: pair,
          at: z.array(z.object({ t: z.number(), surv: z.number(), se: z.number() })),
        }),
      }),
    );
    const lives = tabled(inputs.days, inputs.event);
    expectWeibull(lives, expected.weibull);
    const lognormal = fitted('lognormal', lives);
    expectNear(Math.log(lognormal.parameters[0].value), expected.lognormal.mu, 1e-5, 'mu');
    expectNear(Math.log(lognormal.parameters[1].value), expected.lognormal.sigma, 1e-5, 'sigma');
    expectNear(Math.sqrt(lognormal.covariance[0][0]), expected.lognormal.se_mu, 1e-4, 'standard error of mu');
    expectNear(Math.sqrt(lognormal.covariance[1][1]), expected.lognormal.se_log_sigma, 1e-4, 'that of ln sigma');
    expectNear(lognormal.aic, expected.lognormal.aic, 1e-5, 'AIC');
    expectNear(fitted('exponential', lives).aic, expected.exponential.aic, 1e-5, 'AIC of the exponential');
    const steps = kaplanMeier(lives, 0.95);
    const median = curveQuantile(steps, 0.5);
    expect([median.value, median.low, median.high]).toEqual([expected.km.median, ...expected.km.median_ci_loglog]);
    for (const { t, surv, se } of nonEmpty(expected.km.at)) {
      const step = steps.findLast(({ time }) => time <= t);
      expect(Math.abs((step?.survival ?? NaN) - surv)).toBeLessThan(1e-8);
      expect(Math.abs((step?.standardError ?? NaN) - se)).toBeLessThan(1e-8);
    }
  });

  // Edmunson et al. 1979.
  it('holds on 26 lives of which 12 ended, and on their two arms', () => {
    const { inputs, expected } = publishedCase(
      'ovarian-weibull-km',
      z.object({ days: z.array(z.number()), event: z.array(z.number()), rx: z.array(z.number()) }),
      z.object({ weibull: weibullBlock, km: curveBlock, logrank_rx_chisq: z.number() }),
    );
    const lives = tabled(inputs.days, inputs.event);
    expectWeibull(lives, expected.weibull);
    expectCurve(lives, expected.km);
    const arms = [1, 2].map((arm) => lives.filter((_, i) => inputs.rx[i] === arm));
    expect(Math.abs(logRank(arms).chiSquare - expected.logrank_rx_chisq)).toBeLessThan(1e-6);
  });

  // J. P. Klein and M. L. Moeschberger, Survival Analysis, Table 1.3.
  it('shares relapse and death among 38 patients', () => {
    const { inputs, expected } = publishedCase(
      'bmt-all-aalen-johansen',
      z.object({ days: z.array(z.number()), cause: z.array(z.number()) }),
      incidenceBlock,
    );
    const lives = tabled(inputs.days, inputs.cause).map((one, i) => ({
      ...one,
      cause: inputs.cause[i] === 0 ? null : String(inputs.cause[i]),
    }));
    expectIncidence(aalenJohansen(lives, ['1', '2'], 0.95), expected);
  });
});
