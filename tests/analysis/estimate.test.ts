import { describe, expect, it } from 'vitest';
import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { normalQuantile } from '../../src/chance/normal.js';
import { chanceOf, changedBy, estimateOf } from '../../src/analysis/estimate.js';

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
  const known = { value: 10, halfWidth: 2 };
  /** Values about 0 that repeat, with a variance of 2/3 times n / (n - 1). */
  const waves = (n: number) => Array.from({ length: n }, (_, i) => (i % 3) - 1);

  it('moves by the change, and is known as well as before, where every change is the same', () => {
    const here = waves(30).map((value) => 9 + value);
    const there = here.map((value) => value + 3);
    const { value, halfWidth, low, high } = changedBy(known, here, there);
    expect([value, halfWidth, low, high].map((each) => Math.round(each * 1e9) / 1e9)).toEqual([13, 2, 11, 15]);
    expect(changedBy(known, [8, 8], [11, 11])).toEqual({ value: 13, halfWidth: 2, low: 11, high: 15 });
  });

  it('is the mean there alone, with its own interval, where the two have nothing in common', () => {
    // Each value here meets each value there equally often.
    const here = waves(45).map((value) => 12 + 5 * value);
    const there = Array.from({ length: 45 }, (_, i) => 40 + (Math.floor(i / 3) % 3));
    const { value, halfWidth } = changedBy(known, here, there);
    expect(value).toBeCloseTo(41, 9);
    // t of 43 degrees of freedom at 97.5 % is 2.017 (NIST/SEMATECH e-Handbook, 1.3.6.7.2); the mean here is 2 off what is known.
    const variance = (45 * (2 / 3)) / 43;
    expect(halfWidth).toBeCloseTo(2.017 * Math.sqrt(variance * (1 / 45 + 4 / (25 * 45 * (2 / 3)))), 3);
  });

  it('is not carried off by costly events that the other place takes away, however many of them came', () => {
    const here = Array.from({ length: 128 }, (_, i) => (i % 6 === 0 ? 10_000 : 0));
    const there = Array.from({ length: 128 }, (_, i) => 40 + (i % 2));
    const { value, low, high } = changedBy({ value: 860, halfWidth: 60 }, here, there);
    expect(Math.abs(value - 40.5)).toBeLessThan(1);
    expect(low).toBeGreaterThan(0);
    expect(high).toBeLessThan(50);
  });

  it('holds the true mean as often as it says, whatever the two have in common', () => {
    const REPEATS = 2000;
    for (const common of [0, 0.6, 1]) {
      const table = new LuckTable(`known ${common}`);
      let held = 0;
      for (let repeat = 0; repeat < REPEATS; repeat += 1) {
        const luck = table.replication(repeat);
        const normal = (index: number, of: number) => normalQuantile(luck.uniform(PURPOSES.life, 0, 0, index, of));
        const here = Array.from({ length: 16 }, (_, i) => normal(i, 0));
        const there = here.map((value, i) => 3 + common * value + 0.5 * normal(i, 1));
        // Known from so many replications that its own error hardly counts.
        const { low, high } = changedBy({ value: 0, halfWidth: 0.001 }, here, there);
        if (low <= 3 && 3 <= high) held += 1;
      }
      // 95 % of 2000, with 5.3 standard errors of 9.7: a false alarm in any of three with a chance of 4e-7.
      expect(Math.abs(held - 0.95 * REPEATS)).toBeLessThan(5.3 * Math.sqrt(REPEATS * 0.95 * 0.05));
    }
  });
});
