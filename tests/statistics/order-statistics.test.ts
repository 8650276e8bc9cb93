import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { OrderStatistics } from '../../src/statistics/order-statistics.js';

describe('the order statistics of a sample', () => {
  it('are those of the sorted sample, whichever of them are asked for, in whichever order', () => {
    // Few values make ties; more than 600 numbers are looked through in another way.
    const value = fc.oneof(fc.integer({ min: 0, max: 3 }), fc.double({ noNaN: true }));
    const sample = fc.oneof(
      fc.array(value, { minLength: 1, maxLength: 30 }),
      fc.array(value, { minLength: 601, maxLength: 3000, size: 'max' }),
    );
    const inputs = [sample, fc.array(fc.nat(), { minLength: 1, maxLength: 20 })] as const;
    fc.assert(
      fc.property(...inputs, (values, asked) => {
        const sorted = Float64Array.from(values).sort();
        const statistics = new OrderStatistics(values);
        for (const number of [...asked, 0, values.length - 1]) {
          const place = number % values.length;
          expect(statistics.at(place + 1) - sorted[place] || 0).toBe(0);
        }
      }),
      { seed: 20261128, numRuns: 300 },
    );
  });

  it('leave the sample as it was', () => {
    const values = Float64Array.of(3, 1, 2);
    expect(new OrderStatistics(values).at(1)).toBe(1);
    expect([...values]).toEqual([3, 1, 2]);
  });

  it.each([0, 4, 1.5, NaN])('are refused for a rank of %d in a sample of three', (rank) => {
    expect(() => new OrderStatistics([3, 1, 2]).at(rank)).toThrow(RangeError);
  });
});
