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
