import { describe, expect, it } from 'vitest';
import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { kolmogorovCdf, uniformTest } from '../../src/statistics/kolmogorov.js';

describe('Kolmogorov’s distribution', () => {
  it('is that of the worked example of Marsaglia, Tsang and Wang (J. Stat. Softw. 8(18), 2003; from memory)', () => {
    expect(kolmogorovCdf(10, 0.274)).toBeCloseTo(0.6284796154565, 12);
  });

  it.each([
    [5, 0.563, 0.05],
    [10, 0.409, 0.05],
    [20, 0.294, 0.05],
    [10, 0.489, 0.01],
  ])(
    'has the tabled critical value of %i values (L. H. Miller, J. Am. Stat. Assoc. 51, 111, 1956; from memory)',
    (n, d, p) => {
      expect(1 - kolmogorovCdf(n, d)).toBeCloseTo(p, 3);
    },
  );

  it('is the closed form of one value, 2 d − 1, and what simulation gives of two', () => {
    for (const d of [0.5, 0.6, 0.75, 0.9, 1]) expect(kolmogorovCdf(1, d)).toBeCloseTo(Math.max(0, 2 * d - 1), 12);
    const luck = new LuckTable('Kolmogorov').replication(0);
    const repeats = 20_000;
    const below = Array.from({ length: repeats }, (_, i) =>
      uniformTest([0, 1].map((j) => luck.uniform(PURPOSES.pictures, 0, 0, i, j))).distance < 0.6 ? 1 : 0,
    ).reduce<number>((sum, each) => sum + each, 0);
    // Five standard errors: a false alarm in fewer than one of a million.
    expect(Math.abs(below / repeats - kolmogorovCdf(2, 0.6))).toBeLessThan(5 * Math.sqrt(0.25 / repeats));
  });

  it('gives a single value x the chance 2 min(x, 1 − x) to lie as far off', () => {
    for (const [x, pValue] of [
      [0.2, 0.4],
      [0.5, 1],
      [0.99, 0.02],
    ])
      expect(uniformTest([x]).pValue).toBeCloseTo(pValue, 12);
  });
});
