import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { OrderStatistics } from '../../src/statistics/order-statistics.js';

describe('the order statistics of a sample', () => {
  it('are those of the sorted sample, whichever of them are asked for, in whichever order', () => {
    // Few values make ties.
    const value = fc.oneof(fc.integer({ min: 0, max: 3 }), fc.double({ noNaN: true }));
    const sample = fc.array(value, { minLength: 1, maxLength: 300 });
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

  const many = 100_000;
  it.each([
    ['spread', (i: number) => (i * 7919) % many],
    ['mostly alike', (i: number) => ((i * 7919) % many < 70_000 ? 1 : i / many)],
    ['half of one kind and half of another', (i: number) => i % 2],
    ['of few kinds', (i: number) => (i * 7919) % 5],
    ['endless for some', (i: number) => (i % 3 === 0 ? Infinity : i % 7 === 0 ? -Infinity : i)],
    // Every third value, or any that are taken evenly, says nothing of the others.
    ['taken for another by what is taken evenly', (i: number) => (i % 100 < 50 ? 0 : 1e6 + i)],
    ['in order', (i: number) => i],
    ['in order but for the last', (i: number) => (i < many - 1000 ? 5 : -i)],
  ])('are those of a large sample that is %s', (_, valueOf) => {
    const values = Float64Array.from({ length: many }, (_, i) => valueOf(i));
    const sorted = values.slice().sort();
    const statistics = new OrderStatistics(values);
    for (const rank of [50_000, 50_001, 49_690, 50_310, 10_000, 9_814, 90_000, 1, 2, many, many - 1, 99_000])
      expect(statistics.at(rank)).toBe(sorted[rank - 1]);
  });

  it('leave the sample as it was', () => {
    const values = Float64Array.of(3, 1, 2);
    expect(new OrderStatistics(values).at(1)).toBe(1);
    expect([...values]).toEqual([3, 1, 2]);
  });

  it('are refused for a rank that nothing but NaN has among very many', () => {
    const values = Float64Array.from({ length: 100_000 }, (_, i) => (i % 10 === 3 ? NaN : i));
    expect(() => new OrderStatistics(values).at(99_999)).toThrow('a sample with NaN has no ranks');
  });

  it.each([0, 4, 1.5, NaN])('are refused for a rank of %d in a sample of three', (rank) => {
    expect(() => new OrderStatistics([3, 1, 2]).at(rank)).toThrow(RangeError);
  });
});
