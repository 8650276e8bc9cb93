import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { type MeanInterval, meanInterval, pairedInterval } from '../../src/statistics/interval.js';
import { clopperPearson } from '../../src/statistics/proportion.js';
import { relativeHalfWidth } from '../../src/statistics/stopping.js';
import { departure, publishedCase } from '../support/check-values.js';

const numbers = z.array(z.number());

describe('intervals', () => {
  // C. J. Clopper and E. S. Pearson, Biometrika 26, 404 (1934); NIST/SEMATECH e-Handbook, section 7.2.4.1: 4 defectives of 20.
  it('of a proportion are exact', () => {
    const { inputs, expected } = publishedCase(
      'nist-7241-binomial-ci',
      z.array(z.object({ x: z.int(), n: z.int(), conf: z.number() })),
      z.object({ clopper_pearson: z.array(z.object({ lo: z.number(), hi: z.number() })) }),
    );
    inputs.forEach(({ x, n, conf }, row) => {
      const { low, high } = clopperPearson(x, n, conf);
      const { lo, hi } = expected.clopper_pearson[row];
      expect(Math.abs(low - lo)).toBeLessThan(1e-8);
      expect(Math.abs(high - hi)).toBeLessThan(1e-8);
    });
  });

  // Student, Biometrika 6, 1 (1908); R, t.test on its sleep data.
  it('of paired differences are those of the sleep data', () => {
    const { inputs, expected } = publishedCase(
      'student-sleep',
      z.object({ 1: numbers, 2: numbers }),
      z.object({
        paired: z.object({ t: z.number(), df: z.int(), mean: z.number(), ci95: z.tuple([z.number(), z.number()]) }),
      }),
    );
    const { mean, low, high, standardDeviation, n } = pairedInterval(inputs[1], inputs[2], 0.95);
    expect(n - 1).toBe(expected.paired.df);
    expect(Math.abs((mean / standardDeviation) * Math.sqrt(n) - expected.paired.t)).toBeLessThan(5e-5);
    expect(Math.abs(mean - expected.paired.mean)).toBeLessThan(1e-6);
    expect(Math.abs(low - expected.paired.ci95[0])).toBeLessThan(1e-6);
    expect(Math.abs(high - expected.paired.ci95[1])).toBeLessThan(1e-6);
  });

  // A. M. Law, Simulation Modeling and Analysis, section 10.2: two inventory policies.
  it('of paired differences are those of the inventory policies', () => {
    const { inputs, expected } = publishedCase(
      'law-paired-t-crn',
      z.object({ x1: numbers, x2: numbers, confidence: z.number() }),
      z.object({
        mean_difference: z.number(),
        var_of_mean_difference: z.number(),
        paired_t: z.number(),
        paired_df: z.int(),
        paired_ci: z.tuple([z.number(), z.number()]),
      }),
    );
    const { mean, low, high, standardDeviation, n } = pairedInterval(inputs.x1, inputs.x2, inputs.confidence);
    const ofMean = standardDeviation ** 2 / n;
    expect(departure(mean, expected.mean_difference)).toBeLessThan(1e-5);
    expect(departure(ofMean, expected.var_of_mean_difference)).toBeLessThan(1e-5);
    expect(n - 1).toBe(expected.paired_df);
    expect(departure(low, expected.paired_ci[0])).toBeLessThan(1e-5);
    expect(departure(high, expected.paired_ci[1])).toBeLessThan(1e-5);
    // Printed to four digits only.
    expect((mean / Math.sqrt(ofMean)).toFixed(3)).toBe(expected.paired_t.toFixed(3));
  });

  // Distribution, section 9.4.1: ten replications of the bank.
  it('of a mean are those of the bank', () => {
    const { inputs, expected } = publishedCase(
      'law-bank-mean-ci',
      z.object({ data: numbers, confidence: z.number() }),
      z.object({ mean: z.number(), variance: z.number(), half_width: z.number() }),
    );
    const { mean, standardDeviation, halfWidth } = meanInterval(inputs.data, inputs.confidence);
    expect(departure(mean, expected.mean)).toBeLessThan(1e-6);
    expect(departure(standardDeviation ** 2, expected.variance)).toBeLessThan(1e-6);
    expect(departure(halfWidth, expected.half_width)).toBeLessThan(1e-6);
  });

  describe('that stop a study', () => {
    // Distribution, section 9.4.1 (relative error γ/(1 + γ)) and Y. S. Chow and H. Robbins, Ann. Math. Stat. 36, 457 (1965) (absolute), on R's
    // faithful data (A. Azzalini and A. W. Bowman, Appl. Stat. 39, 357, 1990), looked at after every value.
    const rule = { conf: z.number(), n0: z.int() };
    const stop = { n: z.int(), mean: z.number(), half_width: z.number() };
    const { inputs, expected } = publishedCase(
      'sequential-stopping',
      z.object({
        data: numbers,
        relative: z.array(z.object({ gamma: z.number(), ...rule })),
        absolute: z.array(z.object({ beta: z.number(), ...rule })),
      }),
      z.object({
        relative: z.array(z.object({ ...stop, ratio: z.number(), threshold: z.number() })),
        absolute: z.array(z.object(stop)),
      }),
    );

    function firstPrecise(level: number, n0: number, precise: (interval: MeanInterval) => boolean): MeanInterval {
      for (let n = n0; n <= inputs.data.length; n += 1) {
        const interval = meanInterval(inputs.data.slice(0, n), level);
        if (precise(interval)) return interval;
      }
      throw new Error('the data end before the interval is narrow enough');
    }

    it('stop at the published sizes for a relative precision', () => {
      inputs.relative.forEach(({ gamma, conf, n0 }, row) => {
        const { n, mean, half_width: halfWidth, ratio, threshold } = expected.relative[row];
        const stopped = firstPrecise(conf, n0, (at) => relativeHalfWidth(at.halfWidth, at.mean) <= gamma / (1 + gamma));
        expect(stopped.n).toBe(n);
        expect(departure(gamma / (1 + gamma), threshold)).toBeLessThan(1e-9);
        expect(departure(stopped.mean, mean)).toBeLessThan(1e-9);
        expect(departure(stopped.halfWidth, halfWidth)).toBeLessThan(1e-9);
        expect(departure(relativeHalfWidth(stopped.halfWidth, stopped.mean), ratio)).toBeLessThan(1e-9);
      });
    });

    // The last of these half-widths rests on a Student quantile of SciPy 1.10.1 that is off by 2e-9; this one is from SciPy 1.17.1, whose
    // quantile agrees with mpmath at 40 digits.
    const corrected: Record<number, number> = { 46: 3.9920222246270165 };

    it('stop at the published sizes for an absolute precision', () => {
      inputs.absolute.forEach(({ beta, conf, n0 }, row) => {
        const { n, mean, half_width: published } = expected.absolute[row];
        const stopped = firstPrecise(conf, n0, ({ halfWidth }) => halfWidth <= beta);
        expect(stopped.n).toBe(n);
        expect(departure(stopped.mean, mean)).toBeLessThan(1e-9);
        expect(departure(stopped.halfWidth, corrected[n] ?? published)).toBeLessThan(1e-9);
        expect(departure(stopped.halfWidth, published)).toBeLessThan(3e-9);
      });
    });
  });
});
