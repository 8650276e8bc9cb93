import { describe, expect, it } from 'vitest';
import { drifted } from '../../../src/lesson/surface/drifted.js';
import type { Relief } from '../../../src/lesson/surface/relief.js';

/** Heights that tell their own place: ten times the row, and the column. */
const SURFACE: Relief = {
  ...{ columns: 8, rows: 8, pitch: 2 },
  heights: Float64Array.from({ length: 64 }, (_, place) => 10 * Math.floor(place / 8) + (place % 8)),
};
const rowsOf = (image: Float64Array, points: number) =>
  Array.from({ length: points }, (_, row) => [...image.subarray(row * points, (row + 1) * points)]);

describe('an image that drifts', () => {
  it('is the surface itself where nothing is displaced', () => {
    expect(
      rowsOf(
        drifted(SURFACE, 3, () => 0),
        3,
      ),
    ).toEqual([
      [0, 1, 2],
      [10, 11, 12],
      [20, 21, 22],
    ]);
  });

  it('is sheared along its lines and stretched from line to line, alike where both are one point a row', () => {
    const perRow = 2 * Math.SQRT2;
    expect(
      rowsOf(
        drifted(SURFACE, 3, (row) => row * perRow),
        3,
      ),
    ).toEqual([
      [0, 1, 2],
      [21, 22, 23],
      [42, 43, 44],
    ]);
  });

  it('is shifted as a whole by a displacement from the beginning, and ends at the edge of the surface', () => {
    expect(
      rowsOf(
        drifted(SURFACE, 2, () => 2 * Math.SQRT2),
        2,
      ),
    ).toEqual([
      [11, 12],
      [21, 22],
    ]);
    expect(
      rowsOf(
        drifted(SURFACE, 2, () => 1000),
        2,
      ),
    ).toEqual([
      [77, 77],
      [77, 77],
    ]);
  });
});
