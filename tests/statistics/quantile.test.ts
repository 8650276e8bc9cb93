import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { OrderStatistics } from '../../src/statistics/order-statistics.js';
import {
  orderStatisticCoverage,
  orderStatisticRanks,
  quantileInterval,
  quantileOf,
} from '../../src/statistics/quantile.js';

describe('a sample quantile', () => {
  it('is the value itself for a sample of one, and the ends at 0 and 1', () => {
    expect(quantileOf(new OrderStatistics([7]), 0.9)).toBe(7);
    expect(quantileOf(new OrderStatistics([9, 1, 2]), 0)).toBe(1);
    expect(quantileOf(new OrderStatistics([9, 1, 2]), 1)).toBe(9);
    expect(quantileOf(new OrderStatistics([9, 1, 2]), 0.75)).toBe(5.5);
  });

  it('refuses an empty sample', () => {
    expect(() => quantileOf(new OrderStatistics([]), 0.5)).toThrow(RangeError);
  });

  it('says which limit the sample is too small for', () => {
    const five = new OrderStatistics([4, 1, 5, 2, 3]);
    expect(quantileInterval(five, 0.5, 0.95)).toEqual({ value: 3, low: null, high: null });
    expect(quantileInterval(five, 0.9, 0.9)).toMatchObject({ low: 3, high: null });
    expect(quantileInterval(five, 0.1, 0.9)).toMatchObject({ low: null, high: 3 });
  });
});

describe('the ranks of an interval of a quantile', () => {
  it('reach the level, and would miss it on a side if either went one further in', () => {
    const inputs = [
      fc.integer({ min: 1, max: 3000 }),
      fc.constantFrom(0.1, 0.5, 0.9, 0.95),
      fc.constantFrom(0.9, 0.95),
    ] as const;
    fc.assert(
      fc.property(...inputs, (n, p, level) => {
        const { r, s, coverage } = orderStatisticRanks(n, p, level);
        const tail = (1 - level) / 2;
        if (r !== null) {
          expect(orderStatisticCoverage(n, p, r, n + 1)).toBeGreaterThanOrEqual(1 - tail - 1e-12);
          expect(orderStatisticCoverage(n, p, r + 1, n + 1)).toBeLessThan(1 - tail);
        }
        if (s !== null) {
          expect(orderStatisticCoverage(n, p, 0, s)).toBeGreaterThanOrEqual(1 - tail - 1e-12);
          expect(orderStatisticCoverage(n, p, 0, s - 1)).toBeLessThan(1 - tail);
        }
        if (r !== null && s !== null) expect(coverage).toBeGreaterThanOrEqual(level - 1e-12);
        else expect(coverage).toBeNull();
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});
