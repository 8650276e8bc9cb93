/** What rounding may leave of a variance that is used up by those before it, as a share of it. */
const NOTHING = 1e-9;

/**
 * The lower triangle L with L·Lᵀ = the covariance, row by row; null where that is not positive semi-definite. A variance
 * that follows from those before it gives a column of zeros, so that singular covariances, and zero, have a factor too
 * (G. H. Golub and C. F. Van Loan, Matrix Computations, 4th ed., section 4.2.8, without its pivoting).
 * @param covariance square and symmetric
 */
export function semidefiniteFactor(covariance: readonly (readonly number[])[]): readonly (readonly number[])[] | null {
  const factor = covariance.map((row) => row.map(() => 0));
  for (const [j, row] of covariance.entries()) {
    const left = covariance.map((other, i) => other[j] - dot(factor[i], factor[j], j));
    if (left[j] < -NOTHING * Math.abs(row[j])) return null;
    if (left[j] <= NOTHING * Math.abs(row[j])) {
      // What has no variance of its own has no covariance left with anything either.
      const isLeftOver = (value: number, i: number) =>
        i > j && Math.abs(value) > Math.sqrt(NOTHING * Math.abs(row[j] * covariance[i][i]));
      if (left.some(isLeftOver)) return null;
      continue;
    }
    for (let i = j; i < covariance.length; i += 1) factor[i][j] = left[i] / Math.sqrt(left[j]);
  }
  return factor;
}

function dot(a: readonly number[], b: readonly number[], length: number): number {
  let sum = 0;
  for (let k = 0; k < length; k += 1) sum += a[k] * b[k];
  return sum;
}
