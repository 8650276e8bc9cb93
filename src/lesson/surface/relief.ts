/** Heights on a square grid, row by row. Lengths in nanometres. */
export interface Relief {
  readonly columns: number;
  readonly rows: number;
  /** Distance from one grid point to the next. */
  readonly pitch: number;
  /** `columns × rows` heights. */
  readonly heights: Float64Array;
}

/** Largest height less the smallest. */
export function heightRange({ heights }: Relief): number {
  let [least, most] = [Infinity, -Infinity];
  for (const height of heights) {
    least = Math.min(least, height);
    most = Math.max(most, height);
  }
  return most - least;
}

/** Heights on the scale of a surface, 0 to 255. */
export function greys(heights: Float64Array, surface: Relief): Uint8Array {
  const least = Math.min(...surface.heights);
  const range = heightRange(surface);
  return Uint8Array.from(heights, (height) => Math.round((255 * (height - least)) / Math.max(range, 1e-9)));
}
