/** How far values lie from uniform ones in (0, 1), and how often so many uniform ones lie as far or farther. */
export interface UniformTest {
  /** Largest distance of the empirical distribution function from the straight line. */
  readonly distance: number;
  readonly pValue: number;
}

/** The test of Kolmogorov for a uniform distribution, exact for continuous values; where values are tied it is conservative. */
export function uniformTest(values: readonly number[]): UniformTest {
  const n = values.length;
  const sorted = values.toSorted((a, b) => a - b);
  const distance = sorted.reduce((most, value, i) => Math.max(most, (i + 1) / n - value, value - i / n), 0);
  return { distance, pValue: Math.min(1, Math.max(0, 1 - kolmogorovCdf(n, distance))) };
}

/**
 * The probability that the distance of n uniform values is less than d: an entry of the power of a matrix (G. Marsaglia, W. W. Tsang
 * and J. Wang, J. Stat. Softw. 8(18), 2003, after J. Durbin).
 * @param n at least 1; the time grows with (n d)^3
 * @param d in (0, 1]
 */
export function kolmogorovCdf(n: number, d: number): number {
  if (n * d <= 0.5) return 0;
  if (d >= 1) return 1;
  const k = Math.floor(n * d) + 1;
  const h = k - n * d;
  const size = 2 * k - 1;
  const powers = powersOf(h, size);
  const matrix = Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (__, j) => (i - j + 1 < 0 ? 0 : 1)),
  );
  for (let i = 0; i < size; i += 1) {
    matrix[i][0] -= powers[i + 1];
    matrix[size - 1][i] -= powers[size - i];
  }
  matrix[size - 1][0] += 2 * h - 1 > 0 ? powersOf(2 * h - 1, size)[size] : 0;
  for (let i = 0; i < size; i += 1)
    for (let j = 0; j <= i; j += 1) for (let g = 2; g <= i - j + 1; g += 1) matrix[i][j] /= g;
  let row = Array.from({ length: size }, (_, j) => Number(j === k - 1));
  for (let step = 1; step <= n; step += 1) {
    // Each step has its part of n! / n^n, which keeps the numbers near 1.
    const before = row;
    row = before.map((_, j) => before.reduce((sum, value, i) => sum + value * matrix[i][j], 0) * (step / n));
  }
  return row[k - 1];
}

function powersOf(base: number, most: number): readonly number[] {
  const powers = [1];
  for (let i = 1; i <= most; i += 1) powers.push(powers[i - 1] * base);
  return powers;
}
