import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import studentQuantile from '@stdlib/stats-base-dists-t-quantile';
import { normalCdf } from '../../src/chance/elementary.js';
import { normalQuantile } from '../../src/chance/normal.js';
import { OrderStatistics } from '../../src/statistics/order-statistics.js';
import {
  orderStatisticCoverage,
  orderStatisticRanks,
  quantileInterval,
  quantileOf,
} from '../../src/statistics/quantile.js';
import { chiSquareUpper } from '../support/chance.js';
import { departure, publishedCase } from '../support/check-values.js';
import { nonEmpty } from '../support/non-empty.js';

describe('the tables that intervals stand on', () => {
  // M. Abramowitz and I. A. Stegun, Handbook of Mathematical Functions (1964), tables 26.1, 26.8 and 26.10; computed with SciPy 1.10.1.
  const column = z.record(z.string(), z.number());
  const { expected } = publishedCase(
    'normal-t-chi2-tables',
    z.unknown(),
    z.object({ z: column, t: z.record(z.string(), column), chi2: z.record(z.string(), column), normal_cdf: column }),
  );

  it('are right for the normal distribution', () => {
    for (const [p, value] of nonEmpty(Object.entries(expected.z)))
      expect(departure(normalQuantile(Number(p)), value)).toBeLessThan(1e-9);
    for (const [x, value] of nonEmpty(Object.entries(expected.normal_cdf)))
      expect(departure(normalCdf(Number(x), 0, 1), value)).toBeLessThan(1e-9);
  });

  // The Student quantiles of SciPy 1.10.1 are themselves off by up to 5e-9 in these seven places; the values here are from mpmath at 40
  // digits, by root finding on the incomplete beta function, and SciPy 1.17.1 agrees with them.
  const corrected: Record<string, number> = {
    '2 0.99': 6.964556734283274,
    '4 0.95': 2.1318467863266504,
    '10 0.995': 3.1692726726169513,
    '29 0.9': 1.311433647301551,
    '30 0.9': 1.3104150253913955,
    '30 0.95': 1.6972608865939578,
    '60 0.99': 2.3901194726249133,
  };

  it("are right for Student's t", () => {
    for (const [freedom, values] of nonEmpty(Object.entries(expected.t))) {
      for (const [p, value] of nonEmpty(Object.entries(values))) {
        const place = `${freedom} ${p}`;
        const exact = corrected[place] ?? value;
        expect(departure(studentQuantile(Number(p), Number(freedom)), exact), place).toBeLessThan(1e-9);
        expect(departure(exact, value), place).toBeLessThan(5e-9);
      }
    }
  });

  it('are right for chi-square', () => {
    for (const [freedom, values] of nonEmpty(Object.entries(expected.chi2))) {
      for (const [p, value] of nonEmpty(Object.entries(values))) {
        expect(departure(chiSquareUpper(1 - Number(p), Number(freedom)), value), `${freedom} ${p}`).toBeLessThan(1e-9);
      }
    }
  });
});

describe('quantiles', () => {
  // R. J. Hyndman and Y. Fan, Am. Stat. 50, 361 (1996); R, quantile(type = 7), on the ball-bearing data.
  it('are of type 7', () => {
    const { inputs, expected } = publishedCase(
      'quantile-types',
      z.object({ times: z.array(z.number()), probs: z.array(z.number()), types: z.array(z.int()) }),
      z.object({ rows_are_probs_columns_are_types: z.array(z.array(z.number())) }),
    );
    const type7 = inputs.types.indexOf(7);
    inputs.probs.forEach((p, row) => {
      const value = expected.rows_are_probs_columns_are_types[row][type7];
      expect(Math.abs(quantileOf(new OrderStatistics(inputs.times), p) - value)).toBeLessThan(1e-9);
    });
  });

  // W. J. Conover, Practical Nonparametric Statistics, 3rd ed. (1999), section 3.2: upper quartile of sixteen transistors.
  it('have the exact confidence of the worked example between its two order statistics', () => {
    const { inputs, expected } = publishedCase(
      'conover-quantile-ci',
      z.object({ data: z.array(z.number()), p: z.number(), r: z.int(), s: z.int() }),
      z.object({ lower: z.number(), upper: z.number(), coverage: z.number() }),
    );
    const { data, p, r, s } = inputs;
    expect(Math.abs(orderStatisticCoverage(data.length, p, r, s) - expected.coverage)).toBeLessThan(1e-6);
    expect([data[r - 1], data[s - 1]]).toEqual([expected.lower, expected.upper]);
    // The equal-tailed rule takes the same lower limit at 90 %, and for the upper one more rank: P(B >= 15) = 0.063 is above α/2.
    expect(orderStatisticRanks(data.length, p, 0.9)).toMatchObject({ r, s: s + 1 });
    expect(quantileInterval(new OrderStatistics(data), p, 0.9)).toMatchObject({ low: expected.lower, high: data[s] });
  });

  // Conover section 3.2; H. A. David and H. N. Nagaraja, Order Statistics, section 7.1; computed with SciPy 1.10.1 and mpmath.
  it('have the ranks of the tables, and none where the sample is too small', () => {
    const { inputs, expected } = publishedCase(
      'order-statistic-ranks',
      z.array(z.object({ n: z.int(), p: z.number(), conf: z.number() })),
      z.array(z.object({ r: z.int(), s: z.int(), coverage: z.number().nullable() })),
    );
    inputs.forEach(({ n, p, conf }, row) => {
      const { r, s, coverage } = orderStatisticRanks(n, p, conf);
      expect({ r, s: s ?? n + 1 }).toEqual({ r: expected[row].r, s: expected[row].s });
      if (coverage === null || expected[row].coverage === null) expect(coverage).toBe(expected[row].coverage);
      else expect(Math.abs(coverage - expected[row].coverage)).toBeLessThan(1e-9);
    });
  });
});
