import { describe, expect, it } from 'vitest';
import { columnsOf, rankShares, termsOf } from '../../../src/statistics/information/terms.js';
import { nonEmpty } from '../../support/non-empty.js';

describe('the terms of a hyperbolic cross', () => {
  // How many pairs, and triples, of whole numbers have a product of at most n: Dirichlet's divisor sums D(n) and D₃(n), OEIS A006218
  // and A061201. A degree is one less than its whole number.
  it.each([
    ['one input', 1, 16, 16],
    ['two inputs', 2, 50, 50],
    ['two inputs, of which so many are too many', 2, 44, 41],
    ['two inputs, of which more have no use', 2, 10_000, 50],
    ['three inputs', 3, 13, 13],
    ['three inputs, of which so many are too many', 3, 12, 7],
    ['none', 0, 100, 1],
  ])('of %s are as many as there are products within it', (_, inputs, most, many) => {
    const terms = termsOf(inputs, most);
    expect(terms).toHaveLength(many);
    expect(new Set(terms.map((term) => JSON.stringify(term))).size).toBe(many);
    expect(terms[0]).toEqual({ inputs: [], degrees: [] });
  });

  it('are no fewer than the straight lines, however few are asked for', () => {
    expect(termsOf(5, 1).slice(1)).toEqual([0, 1, 2, 3, 4].map((input) => ({ inputs: [input], degrees: [1] })));
  });
});

describe('the columns of terms', () => {
  it('are orthonormal over places spread evenly', () => {
    // The middles of 60 × 60 equal squares; the midpoint rule is off by the square of their width times the curvature.
    const side = Array.from({ length: 60 }, (_, i) => (i + 0.5) / 60);
    const places = [side.flatMap((x) => side.map(() => x)), side.flatMap(() => side)];
    const columns = columnsOf(termsOf(2, 14), places);
    expect(columns).toHaveLength(14);
    for (const [i, one] of nonEmpty(columns.entries()))
      for (const [j, other] of nonEmpty(columns.entries())) {
        const product = one.reduce((sum, value, draw) => sum + value * other[draw], 0) / one.length;
        expect(Math.abs(product - Number(i === j))).toBeLessThan(0.03);
      }
  });

  it('are Legendre’s polynomials of the place', () => {
    // P₁ = x, P₂ = (3x² − 1)/2, P₃ = (5x³ − 3x)/2, times √(2n + 1), at x = ½.
    const terms = [1, 2, 3].map((degree) => ({ inputs: [0], degrees: [degree] }));
    const values = columnsOf([{ inputs: [], degrees: [] }, ...terms], [[0.75]]).map(([value]) => value);
    const exact = [1, 0.5 * Math.sqrt(3), -0.125 * Math.sqrt(5), -0.4375 * Math.sqrt(7)];
    expect(values).toHaveLength(4);
    exact.forEach((value, degree) => {
      expect(values[degree]).toBeCloseTo(value, 12);
    });
  });
});

describe('ranks as shares of all', () => {
  it('are the middles of equal parts, and equal values share the middle of theirs', () => {
    expect([...rankShares([30, -1, 7, 8])]).toEqual([0.875, 0.125, 0.375, 0.625]);
    expect([...rankShares([3, 1, 3, 2])]).toEqual([0.75, 0.125, 0.75, 0.375]);
    expect([...rankShares([5, 5])]).toEqual([0.5, 0.5]);
  });
});
