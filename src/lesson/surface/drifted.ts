import type { Relief } from './relief.js';

/** Drift is drawn slantwise: as much along a line, which shears the image, as from line to line, which stretches it. */
const SLANT = Math.SQRT1_2;

/**
 * The piece of a surface that an image of so many points a side shows if the surface is displaced meanwhile: row by row, from
 * the corner at which the displacement is none. Heights of the nearest points; beyond the surface those at its edge.
 * @param displacementAt nanometres by which all is displaced when a row (from 0) is scanned
 */
export function drifted(surface: Relief, points: number, displacementAt: (row: number) => number): Float64Array {
  const { columns, rows, pitch, heights } = surface;
  const image = new Float64Array(points * points);
  for (let row = 0; row < points; row += 1) {
    const shift = Math.round((SLANT * displacementAt(row)) / pitch);
    const y = Math.min(rows - 1, row + shift);
    for (let column = 0; column < points; column += 1)
      image[row * points + column] = heights[y * columns + Math.min(columns - 1, column + shift)];
  }
  return image;
}
