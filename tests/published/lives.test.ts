import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { gammainc } from '../../src/chance/elementary.js';
import { compileLife } from '../../src/chance/life.js';
import { additiveWeibull } from '../../src/chance/life/bathtub.js';
import { normalQuantile } from '../../src/chance/normal.js';
import { departure, publishedCase } from '../support/check-values.js';
import { publishedDistributions, publishedLife } from '../support/published-distributions.js';
import { nonEmpty } from '../support/non-empty.js';

describe('lives', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, sections 8.1.6.2, 8.1.6.4 and 8.1.6.5.
  it('have the distribution functions worked out in the NIST handbook', () => {
    const shaped = z.object({ t: z.number(), shape: z.number(), scale: z.number() });
    const { inputs, expected } = publishedCase(
      'nist-816-distribution-values',
      z.object({
        weibull: shaped,
        lognormal: z.object({ t: z.number(), sigma: z.number(), median: z.number() }),
        gamma: shaped,
      }),
      z.object({
        weibull: z.object({ cdf: z.number() }),
        lognormal: z.object({ cdf: z.number() }),
        gamma: z.object({ cdf: z.number(), sf: z.number() }),
      }),
    );
    const { weibull, lognormal, gamma } = inputs;
    const weibullHazard = compileLife({
      distribution: 'weibull',
      shape: weibull.shape,
      scale: weibull.scale,
    }).cumulativeHazard(weibull.t);
    const lognormalHazard = compileLife({
      distribution: 'lognormal',
      median: lognormal.median,
      geometricSd: Math.exp(lognormal.sigma),
    }).cumulativeHazard(lognormal.t);
    const gammaHazard = compileLife({ distribution: 'gamma', shape: gamma.shape, scale: gamma.scale }).cumulativeHazard(
      gamma.t,
    );
    expect(departure(-Math.expm1(-weibullHazard), expected.weibull.cdf)).toBeLessThan(1e-9);
    expect(departure(-Math.expm1(-lognormalHazard), expected.lognormal.cdf)).toBeLessThan(1e-9);
    expect(departure(-Math.expm1(-gammaHazard), expected.gamma.cdf)).toBeLessThan(1e-9);
    expect(departure(Math.exp(-gammaHazard), expected.gamma.sf)).toBeLessThan(1e-9);
  });

  // S. Bennett, Appl. Stat. 32, 165 (1983): the odds of having failed are (x / median)^shape. Exposures by mpmath with 40 digits.
  it.each([
    [60, 1.5, 0.001, 0.6002000500092606],
    [60, 1.5, 2, 206.5898837943953],
    [0.5, 4, 0.7, 0.5017102930981223],
    [0.5, 4, 13, 12.895162671757388],
    [25, 0.75, 1e-9, 2.500000001666667e-11],
    [25, 0.75, 40, 3.633393014148216e24],
  ])(
    'are log-logistic as Bennett has it: median %d, shape %d, cumulative hazard %d',
    (median, shape, hazard, exposure) => {
      const life = compileLife({ distribution: 'log-logistic', median, shape });
      expect(departure(life.cumulativeHazard(exposure), hazard)).toBeLessThan(2e-15);
      expect(departure(life.exposureAt(hazard), exposure)).toBeLessThan(2e-14);
    },
  );

  // Computed with SciPy 1.10.1 and mpmath. Far tails (survival below 1e-3) are held to 1e-7 there, all others to 1e-9.
  it('have the cumulative hazards and survivals of the tables', () => {
    const { inputs, expected } = publishedCase(
      'hazard-tables',
      publishedDistributions,
      z.record(z.string(), z.array(z.object({ t: z.number(), sf: z.number(), cdf: z.number(), cumhaz: z.number() }))),
    );
    for (const [name, distribution] of nonEmpty(Object.entries(inputs))) {
      const life = compileLife(publishedLife(name, distribution));
      for (const { t, sf, cdf, cumhaz } of nonEmpty(expected[name])) {
        const hazard = life.cumulativeHazard(t);
        const tolerance = sf < 1e-3 ? 1e-7 : 1e-9;
        expect(departure(hazard, cumhaz), `${name} at ${t}`).toBeLessThan(tolerance);
        expect(departure(Math.exp(-hazard), sf), `${name} at ${t}`).toBeLessThan(tolerance);
        expect(departure(-Math.expm1(-hazard), cdf), `${name} at ${t}`).toBeLessThan(tolerance);
      }
    }
  });

  // Computed with SciPy 1.10.1 and mpmath.
  it('have the quantiles of the tables', () => {
    const { inputs, expected } = publishedCase(
      'inverse-cdf-points',
      publishedDistributions,
      z.record(z.string(), z.array(z.object({ u: z.number(), x: z.number() }))),
    );
    const { std_normal: normal, ...distributions } = expected;
    for (const { u, x } of nonEmpty(normal)) expect(departure(normalQuantile(u), x)).toBeLessThan(1e-8);
    for (const [name, points] of nonEmpty(Object.entries(distributions))) {
      const life = compileLife(publishedLife(name, inputs[name]));
      for (const { u, x } of nonEmpty(points)) {
        expect(departure(life.exposureAt(-Math.log1p(-u)), x), `${name} at ${u}`).toBeLessThan(1e-8);
      }
    }
  });

  // Two-term form: M. Xie and C. D. Lai, Reliab. Eng. Syst. Saf. 52, 87 (1996); three terms computed with SciPy 1.10.1 and mpmath.
  it('have the hazards, median and moments of a bathtub', () => {
    const { inputs, expected } = publishedCase(
      'bathtub-additive-weibull',
      z.object({ terms: z.array(z.object({ shape: z.number(), scale: z.number() })) }),
      z.object({
        mean: z.number(),
        sd: z.number(),
        median: z.number(),
        table: z.array(z.object({ t: z.number(), cumhaz: z.number(), sf: z.number() })),
      }),
    );
    const distribution = additiveWeibull(inputs.terms);
    for (const { t, cumhaz, sf } of nonEmpty(expected.table)) {
      expect(departure(distribution.cumulativeHazard(t), cumhaz)).toBeLessThan(1e-7);
      expect(departure(Math.exp(-distribution.cumulativeHazard(t)), sf)).toBeLessThan(1e-7);
      expect(departure(distribution.exposureAt(cumhaz), t)).toBeLessThan(1e-7);
    }
    expect(departure(distribution.exposureAt(Math.LN2), expected.median)).toBeLessThan(1e-7);
    // E[X^k] = ∫ k x^(k-1) S(x) dx by the midpoint rule in y = √x, which is smooth at 0; S is below 1e-40 at x = 500.
    const steps = 200_000;
    const width = Math.sqrt(500) / steps;
    const moment = (k: number) => {
      let sum = 0;
      for (let i = 0; i < steps; i += 1) {
        const y = (i + 0.5) * width;
        sum += 2 * k * y ** (2 * k - 1) * Math.exp(-distribution.cumulativeHazard(y * y));
      }
      return sum * width;
    };
    const mean = moment(1);
    expect(departure(mean, expected.mean)).toBeLessThan(1e-7);
    expect(departure(Math.sqrt(moment(2) - mean * mean), expected.sd)).toBeLessThan(1e-7);
  });

  // DLMF chapter 8; Abramowitz and Stegun chapter 6; computed with SciPy 1.10.1 and mpmath.
  it('stand on the tabulated incomplete gamma function', () => {
    const { expected } = publishedCase(
      'special-functions',
      z.unknown(),
      z.object({ gamma_P: z.record(z.string(), z.number()) }),
    );
    for (const [label, value] of nonEmpty(Object.entries(expected.gamma_P))) {
      const [a, x] = label.slice(2, -1).split(',').map(Number);
      expect(departure(gammainc(x, a, true, false), value), label).toBeLessThan(1e-10);
    }
  });
});
