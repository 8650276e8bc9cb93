/** Numbers in a row: an array, or a column of a study in a typed one. */
export type Numbers = ArrayLike<number>;

/** The sum in order, without compensation. */
export function total(values: Numbers): number {
  let result = 0;
  for (let i = 0; i < values.length; i += 1) result += values[i];
  return result;
}

/** @param values at least one */
export function average(values: Numbers): number {
  return total(values) / values.length;
}

/** The place of the least; the first of several. */
export function placeOfLeast(values: readonly number[]): number {
  return values.reduce((best, value, place) => (value < values[best] ? place : best), 0);
}

/**
 * The compensated sum in order: with what each addition rounds away (Kahan-Babuška), so that the order of magnitude of the
 * values costs no digits. It is that of simple-statistics to the bit, which takes no typed columns.
 */
export function compensatedSum(values: Numbers): number {
  return compensated(values, 'as they are', 0);
}

/** The compensated sum of squared deviations. */
export function squaredDeviations(values: Numbers, centre: number): number {
  return compensated(values, 'squared', centre);
}

/** In one loop, which makes no column of the squares. */
function compensated(values: Numbers, how: 'as they are' | 'squared', centre: number): number {
  let [rounded, lost] = [0, 0];
  for (let i = 0; i < values.length; i += 1) {
    const value = how === 'squared' ? (values[i] - centre) * (values[i] - centre) : values[i];
    const next = rounded + value;
    lost += Math.abs(rounded) >= Math.abs(value) ? rounded - next + value : value - next + rounded;
    rounded = next;
  }
  return rounded + lost;
}

/** Pair by pair a - b; `b` has at least as many. */
export function less(a: Numbers, b: Numbers): Float64Array {
  const differences = new Float64Array(a.length);
  for (let i = 0; i < a.length; i += 1) differences[i] = a[i] - b[i];
  return differences;
}

/** How many of the numbers a condition holds for. */
export function countOf(values: Numbers, holds: (value: number) => boolean): number {
  let count = 0;
  for (let i = 0; i < values.length; i += 1) if (holds(values[i])) count += 1;
  return count;
}

/**
 * How many of the numbers are at most as large as each limit; NaN is not.
 * @param limits ascending
 */
export function countsUpTo(values: Numbers, limits: Numbers): readonly number[] {
  // Those between a limit and the one before it; the last place is for those beyond all.
  const counts = new Array<number>(limits.length + 1).fill(0);
  for (let i = 0; i < values.length; i += 1) {
    const value = values[i];
    let [low, high] = [0, limits.length];
    while (low < high) {
      const middle = (low + high) >>> 1;
      if (limits[middle] >= value) high = middle;
      else low = middle + 1;
    }
    counts[low] += 1;
  }
  let sum = 0;
  return counts.slice(0, -1).map((count) => (sum += count));
}
