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

/** Adds up in order, with what each addition rounds away (Kahan-Babuška), so that the order of magnitude of the values costs no digits. */
class CompensatedSum {
  private rounded = 0;
  private lost = 0;

  add(value: number): void {
    const { rounded } = this;
    const next = rounded + value;
    this.lost += Math.abs(rounded) >= Math.abs(value) ? rounded - next + value : value - next + rounded;
    this.rounded = next;
  }

  get value(): number {
    return this.rounded + this.lost;
  }
}

/** The compensated sum in order. It is that of simple-statistics to the bit, which takes no typed columns. */
export function compensatedSum(values: Numbers): number {
  const sum = new CompensatedSum();
  for (let i = 0; i < values.length; i += 1) sum.add(values[i]);
  return sum.value;
}

/** The compensated sum of squared deviations. */
export function squaredDeviations(values: Numbers, centre: number): number {
  const sum = new CompensatedSum();
  for (let i = 0; i < values.length; i += 1) sum.add((values[i] - centre) * (values[i] - centre));
  return sum.value;
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
