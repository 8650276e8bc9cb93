import { describe, expect, it } from 'vitest';
import { expectedOfGroups, nestedVariance } from '../../src/statistics/nested-variance.js';
import { variance } from '../support/chance.js';

/*
 * Yield of dyestuff (grams of standard colour) from five preparations of each of six batches: O. L. Davies and
 * P. L. Goldsmith, Statistical Methods in Research and Production, 4th ed. (1972), which also is the data set `Dyestuff` of
 * the R package lme4. The layout is balanced, so the analysis of variance gives what restricted maximum likelihood gives
 * there: 1764.05 between batches and 2451.25 within (D. M. Bates, lme4: Mixed-effects modeling with R, section 1.3).
 */
const BATCHES = [
  [1545, 1440, 1440, 1520, 1580],
  [1540, 1555, 1490, 1560, 1495],
  [1595, 1550, 1605, 1510, 1560],
  [1445, 1440, 1595, 1465, 1545],
  [1595, 1630, 1515, 1635, 1625],
  [1520, 1455, 1450, 1480, 1445],
];

describe('variance between and within groups', () => {
  it('is that of the dyestuff batches', () => {
    const { mean, between, within } = nestedVariance(BATCHES);
    expect(mean).toBeCloseTo(1527.5, 9);
    expect(between).toBeCloseTo(1764.05, 6);
    expect(within).toBeCloseTo(2451.25, 6);
  });

  it('leaves the means of groups just as far apart as their expected values are estimated to be', () => {
    expect(variance(expectedOfGroups(nestedVariance(BATCHES)))).toBeCloseTo(1764.05, 6);
  });

  it('sees nothing between groups that differ less than their own noise', () => {
    const split = nestedVariance([
      [0, 10],
      [1, 9],
      [2, 8],
    ]);
    expect(split.between).toBe(0);
    expect(expectedOfGroups(split)).toEqual([5, 5, 5]);
  });

  it('needs two groups of two', () => {
    expect(() => nestedVariance([[1, 2]])).toThrow(RangeError);
    expect(() => nestedVariance([[1], [2]])).toThrow(RangeError);
  });
});
