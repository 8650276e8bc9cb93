import { describe, expect, it } from 'vitest';
import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { normalQuantile } from '../../src/chance/normal.js';
import { bonferroni, meanInterval, pairedInterval } from '../../src/statistics/interval.js';

describe('the interval of a mean', () => {
  it('has no width where the values do not vary', () => {
    expect(meanInterval([3, 3, 3], 0.95)).toEqual({
      mean: 3,
      low: 3,
      high: 3,
      halfWidth: 0,
      standardDeviation: 0,
      n: 3,
    });
  });

  it('needs at least two values', () => {
    expect(() => meanInterval([1], 0.95)).toThrow(RangeError);
  });

  it('loses no digits to the size of the values', () => {
    const offset = 2 ** 40;
    const values = [1, 2, 4, 8, 16];
    const far = meanInterval(
      values.map((value) => offset + value),
      0.9,
    );
    const near = meanInterval(values, 0.9);
    expect(far.standardDeviation / near.standardDeviation).toBeCloseTo(1, 10);
    expect(far.mean - offset).toBeCloseTo(near.mean, 3);
  });

  it('covers the true mean as often as its level says', () => {
    // 20 000 samples of five normal values at 90 %: false alarm at |z| > 5.2, once in 5e6.
    const luck = new LuckTable('coverage').replication(0);
    const samples = 20_000;
    let covered = 0;
    for (let c = 0; c < samples; c += 1) {
      const values = [0, 1, 2, 3, 4].map((d) => normalQuantile(luck.uniform(PURPOSES.radius, 0, 0, c, d)));
      const { low, high } = meanInterval(values, 0.9);
      if (low <= 0 && 0 <= high) covered += 1;
    }
    expect(Math.abs(covered - 0.9 * samples) / Math.sqrt(0.09 * samples)).toBeLessThan(5.2);
  });
});

describe('the interval of paired differences', () => {
  it('is that of the differences, first less second', () => {
    expect(pairedInterval([5, 7, 9], [1, 2, 3], 0.95)).toEqual(meanInterval([4, 5, 6], 0.95));
  });

  it('refuses unequal numbers of values', () => {
    expect(() => pairedInterval([1, 2], [1], 0.95)).toThrow(RangeError);
  });
});

describe('the level of one of several intervals', () => {
  it('shares out the chance of error', () => {
    expect(bonferroni(0.95, 1)).toBeCloseTo(0.95, 15);
    expect(bonferroni(0.95, 6)).toBeCloseTo(1 - 0.05 / 6, 15);
  });
});
