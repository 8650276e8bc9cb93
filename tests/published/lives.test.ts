import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { gammainc } from '../../src/chance/elementary.js';
import { compileLife } from '../../src/chance/life.js';
import { additiveWeibull } from '../../src/chance/life/bathtub.js';
import { normalQuantile } from '../../src/chance/normal.js';
import { departure, publishedCase } from '../support/check-values.js';
import { publishedLaws, publishedLife } from '../support/published-laws.js';

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
    const weibullHazard = compileLife({ law: 'weibull', shape: weibull.shape, scale: weibull.scale }).cumulativeHazard(
      weibull.t,
    );
    const lognormalHazard = compileLife({
      law: 'lognormal',
      median: lognormal.median,
      spread: Math.exp(lognormal.sigma),
    }).cumulativeHazard(lognormal.t);
    const gammaHazard = compileLife({ law: 'gamma', shape: gamma.shape, scale: gamma.scale }).cumulativeHazard(gamma.t);
    expect(departure(-Math.expm1(-weibullHazard), expected.weibull.cdf)).toBeLessThan(1e-9);
    expect(departure(-Math.expm1(-lognormalHazard), expected.lognormal.cdf)).toBeLessThan(1e-9);
    expect(departure(-Math.expm1(-gammaHazard), expected.gamma.cdf)).toBeLessThan(1e-9);
    expect(departure(Math.exp(-gammaHazard), expected.gamma.sf)).toBeLessThan(1e-9);
  });

  // Computed with SciPy 1.10.1 and mpmath. Far tails (survival below 1e-3) are held to 1e-7 there, all others to 1e-9.
  it('have the cumulative hazards and survivals of the tables', () => {
    const { inputs, expected } = publishedCase(
      'hazard-tables',
      publishedLaws,
      z.record(z.string(), z.array(z.object({ t: z.number(), sf: z.number(), cdf: z.number(), cumhaz: z.number() }))),
    );
    for (const [name, law] of Object.entries(inputs)) {
      const life = compileLife(publishedLife(name, law));
      for (const { t, sf, cdf, cumhaz } of expected[name]) {
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
      publishedLaws,
      z.record(z.string(), z.array(z.object({ u: z.number(), x: z.number() }))),
    );
    const { std_normal: normal, ...laws } = expected;
    for (const { u, x } of normal) expect(departure(normalQuantile(u), x)).toBeLessThan(1e-8);
    for (const [name, points] of Object.entries(laws)) {
      const life = compileLife(publishedLife(name, inputs[name]));
      for (const { u, x } of points) {
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
    const law = additiveWeibull(inputs.terms);
    for (const { t, cumhaz, sf } of expected.table) {
      expect(departure(law.cumulativeHazard(t), cumhaz)).toBeLessThan(1e-7);
      expect(departure(Math.exp(-law.cumulativeHazard(t)), sf)).toBeLessThan(1e-7);
      expect(departure(law.exposureAt(cumhaz), t)).toBeLessThan(1e-7);
    }
    expect(departure(law.exposureAt(Math.LN2), expected.median)).toBeLessThan(1e-7);
    // E[X^k] = ∫ k x^(k-1) S(x) dx by the midpoint rule in y = √x, which is smooth at 0; S is below 1e-40 at x = 500.
    const steps = 200_000;
    const width = Math.sqrt(500) / steps;
    const moment = (k: number) => {
      let sum = 0;
      for (let i = 0; i < steps; i += 1) {
        const y = (i + 0.5) * width;
        sum += 2 * k * y ** (2 * k - 1) * Math.exp(-law.cumulativeHazard(y * y));
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
    for (const [label, value] of Object.entries(expected.gamma_P)) {
      const [a, x] = label.slice(2, -1).split(',').map(Number);
      expect(departure(gammainc(x, a, true, false), value), label).toBeLessThan(1e-10);
    }
  });
});
