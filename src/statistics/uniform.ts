/** How far values lie from uniform ones in (0, 1): the largest distance of their distribution function from the straight line. */
export function uniformDistance(values: readonly number[]): number {
  const n = values.length;
  const sorted = values.toSorted((a, b) => a - b);
  return sorted.reduce((most, value, i) => Math.max(most, (i + 1) / n - value, value - i / n), 0);
}
