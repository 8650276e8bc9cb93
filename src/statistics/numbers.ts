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

/**
 * The sum of what becomes of the numbers, in order and compensated (Kahan-Babuška), so that the order of magnitude of the
 * values costs no digits. It is that of simple-statistics to the bit, which takes no typed columns.
 */
export function compensatedSum(values: Numbers, of: (value: number) => number): number {
  let result = 0;
  let lost = 0;
  for (let i = 0; i < values.length; i += 1) {
    const value = of(values[i]);
    const next = result + value;
    lost += Math.abs(result) >= Math.abs(value) ? result - next + value : value - next + result;
    result = next;
  }
  return result + lost;
}

/** The sum of squared deviations, compensated (Kahan-Babuška). */
export function squaredDeviations(values: Numbers, centre: number): number {
  return compensatedSum(values, (value) => (value - centre) * (value - centre));
}

/** Pair by pair a - b; `b` has at least as many. */
export function less(a: Numbers, b: Numbers): Float64Array {
  const differences = new Float64Array(a.length);
  for (let i = 0; i < a.length; i += 1) differences[i] = a[i] - b[i];
  return differences;
}

/** The numbers in ascending order, in a list of their own. */
export function ascending(values: Numbers): Float64Array {
  return new Float64Array(values).sort();
}

/** How many of the numbers a condition holds for. */
export function countOf(values: Numbers, holds: (value: number) => boolean): number {
  let count = 0;
  for (let i = 0; i < values.length; i += 1) if (holds(values[i])) count += 1;
  return count;
}
