import { describe, expect, it } from 'vitest';
import { semidefiniteFactor } from '../../src/statistics/cholesky.js';

/** L·Lᵀ */
function squared(factor: readonly (readonly number[])[]): number[][] {
  return factor.map((row) => factor.map((other) => row.reduce((sum, value, k) => sum + value * other[k], 0)));
}

describe('the factor of a covariance', () => {
  it.each([
    ['one by one', [[4]], [[2]]],
    // By hand: [[2, 0, 0], [6, 1, 0], [-8, 5, 3]] times its transpose.
    [
      'three by three',
      [
        [4, 12, -16],
        [12, 37, -43],
        [-16, -43, 98],
      ],
      [
        [2, 0, 0],
        [6, 1, 0],
        [-8, 5, 3],
      ],
    ],
    [
      'of nothing',
      [
        [0, 0],
        [0, 0],
      ],
      [
        [0, 0],
        [0, 0],
      ],
    ],
  ])('is the lower triangle: %s', (_, covariance, factor) => {
    expect(semidefiniteFactor(covariance)).toEqual(factor);
  });

  it('exists where one value follows from another', () => {
    const covariance = [
      [1, 2, 3],
      [2, 4, 6],
      [3, 6, 10],
    ];
    expect(squared(semidefiniteFactor(covariance) ?? [])).toEqual(covariance);
  });

  it.each([
    [
      [
        [1, 2],
        [2, 1],
      ],
    ],
    [
      [
        [0, 1],
        [1, 1],
      ],
    ],
    [[[-1]]],
  ])('is none of what is no covariance: %j', (covariance) => {
    expect(semidefiniteFactor(covariance)).toBeNull();
  });
});
