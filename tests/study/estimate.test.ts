import { describe, expect, it } from 'vitest';
import { chanceOf, changedBy, estimateOf } from '../../src/study/estimate.js';

describe('an estimate', () => {
  it('of a mean is Student’s interval: t of two degrees of freedom is 4.303 (NIST/SEMATECH e-Handbook, 1.3.6.7.2)', () => {
    const { value, low, high } = estimateOf([1, 2, 3]);
    expect(value).toBe(2);
    expect(((high - low) / 2) * Math.sqrt(3)).toBeCloseTo(4.303, 3);
    expect(high - value).toBeCloseTo(value - low, 12);
  });

  it('of a chance that never came is bounded by the closed form of Clopper and Pearson, 1 - 0.025^(1/n)', () => {
    const { value, low, high } = chanceOf(0, 10);
    expect([value, low]).toEqual([0, 0]);
    expect(high).toBeCloseTo(1 - 0.025 ** (1 / 10), 12);
  });

  it('of a level asked for is narrower where less is asked', () => {
    const [wide, narrow] = [0.99, 0.8].map((level) => estimateOf([1, 2, 3, 4], level));
    expect(narrow.high - narrow.low).toBeLessThan(wide.high - wide.low);
  });
});

describe('a known mean that something changes', () => {
  it('moves by the mean change, and is known as well as before where every change is the same', () => {
    expect(changedBy({ value: 10, halfWidth: 2 }, [3, 3, 3])).toEqual({ value: 13, halfWidth: 2, low: 11, high: 15 });
  });

  it('adds the half-widths of independent parts in squares', () => {
    const change = estimateOf([1, 2, 3]);
    const ofChange = change.high - change.value;
    const { value, halfWidth } = changedBy({ value: 10, halfWidth: 2 }, [1, 2, 3]);
    expect(value).toBe(12);
    expect(halfWidth).toBeCloseTo(Math.hypot(2, ofChange), 12);
  });
});
