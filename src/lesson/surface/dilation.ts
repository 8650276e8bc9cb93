import { heightRange, type Relief } from './relief.js';
import type { TipShape } from './tip-shape.js';

/** A tip on the grid of a surface: each place of it that can ever touch, and how high it is there. */
export interface TipOnGrid {
  /** Places in grid steps from the apex, and heights above it in nanometres. */
  readonly dx: readonly number[];
  readonly dy: readonly number[];
  readonly above: readonly number[];
}

/**
 * Puts a tip on the grid of a surface. What lies higher above the apex than the surface has range never touches: it is
 * left out, and the image stays the same.
 */
export function tipOnGrid(shape: TipShape, surface: Relief): TipOnGrid {
  const { columns, rows, pitch } = surface;
  const range = heightRange(surface);
  const grid: { dx: number[]; dy: number[]; above: number[] } = { dx: [], dy: [], above: [] };
  for (let dy = 1 - rows; dy < rows; dy += 1) {
    for (let dx = 1 - columns; dx < columns; dx += 1) {
      const above = shape(dx * pitch, dy * pitch);
      if (above > range) continue;
      grid.dx.push(dx);
      grid.dy.push(dy);
      grid.above.push(above);
    }
  }
  return grid;
}

/**
 * One row of the image that a tip gives of a surface, by grey-scale dilation: I(x) = max over u of S(x + u) + P(u), with
 * P(u) = −(height of the tip above its apex at u); what is out of range is skipped. In nanometres.
 *
 * J. S. Villarrubia, J. Res. Natl. Inst. Stand. Technol. 102, 425 (1997).
 */
export function imageRow(surface: Relief, { dx, dy, above }: TipOnGrid, row: number): Float64Array {
  const { columns, rows, heights } = surface;
  const image = new Float64Array(columns).fill(-Infinity);
  for (let place = 0; place < dx.length; place += 1) {
    const touched = row + dy[place];
    if (touched < 0 || touched >= rows) continue;
    const shift = dx[place];
    const from = touched * columns + shift;
    const drop = above[place];
    const end = Math.min(columns, columns - shift);
    for (let x = Math.max(0, -shift); x < end; x += 1) {
      const height = heights[from + x] - drop;
      if (height > image[x]) image[x] = height;
    }
  }
  return image;
}
