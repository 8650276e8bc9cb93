import fc from 'fast-check';
import { sum } from 'simple-statistics';
import { expect, it } from 'vitest';
import { compensatedSum } from '../../src/statistics/numbers.js';

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
