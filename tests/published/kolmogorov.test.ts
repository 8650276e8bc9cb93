import { describe, expect, it } from 'vitest';
import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { uniformDistance } from '../../src/statistics/uniform.js';

describe('the distance of values from uniform ones', () => {
  it.each([
    [5, 0.563],
    [10, 0.409],
    [20, 0.294],
  ])(
    'of %i uniform values exceeds the tabled %f in one of twenty (L. H. Miller, J. Am. Stat. Assoc. 51, 111, 1956; from memory)',
    (n, d) => {
      const luck = new LuckTable('Kolmogorov').replication(0);
      const repeats = 20_000;
      let beyond = 0;
      for (let i = 0; i < repeats; i += 1) {
        const values = Array.from({ length: n }, (_, j) => luck.uniform(PURPOSES.pictures, 0, n, i, j));
        if (uniformDistance(values) > d) beyond += 1;
      }
      // Five standard errors, and half a step of the table: a false alarm in fewer than one of a million.
      expect(Math.abs(beyond / repeats - 0.05)).toBeLessThan(5 * Math.sqrt((0.05 * 0.95) / repeats) + 0.001);
    },
  );

  it('of one value is the farther of its two ends', () => {
    for (const [value, distance] of [
      [0.2, 0.8],
      [0.5, 0.5],
      [0.99, 0.99],
    ])
      expect(uniformDistance([value])).toBeCloseTo(distance, 12);
  });
});
