import fc from 'fast-check';
import { sum } from 'simple-statistics';
import { expect, it } from 'vitest';
import { compensatedSum, countOf, countsUpTo } from '../../src/statistics/numbers.js';

const number = fc.oneof(
  fc.double({ min: -1e9, max: 1e9, noNaN: true }),
  fc.integer(),
  fc.constantFrom(1e16, -1e16, 1e-9),
);

it('sums a typed column as simple-statistics does a list, to the bit', () => {
  fc.assert(
    fc.property(fc.array(number, { maxLength: 60 }), (values) => {
      expect(compensatedSum(Float64Array.from(values)) + 0).toBe(sum(values) + 0);
    }),
  );
  expect(compensatedSum([1, 1e100, 1, -1e100])).toBe(2);
});

it('counts how many numbers are at most as large as each limit, those equal to it among them, and none that is no number', () => {
  const numbers = fc.array(fc.oneof(fc.integer({ min: 0, max: 9 }), fc.constantFrom(NaN, Infinity)), { maxLength: 50 });
  const limits = fc.array(fc.oneof(fc.integer({ min: -1, max: 10 }), fc.constant(Infinity)), { maxLength: 12 });
  fc.assert(
    fc.property(numbers, limits, (values, unordered) => {
      const ascending = Float64Array.from(unordered).sort();
      expect(countsUpTo(values, ascending)).toEqual(
        Array.from(ascending, (limit) => values.filter((value) => value <= limit).length),
      );
    }),
  );
});

it('counts the numbers of which a condition holds, and no others', () => {
  expect(countOf(Float64Array.of(3, -1, NaN, 0, 2), (value) => value > 0)).toBe(2);
  expect(countOf([], () => true)).toBe(0);
});
