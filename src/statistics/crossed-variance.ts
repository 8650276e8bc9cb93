/** How the variance of values splits that stand in rows and columns, both drawn at random, one value for each pair. */
export interface CrossedVariance {
  readonly mean: number;
  readonly rowMeans: readonly number[];
  /** Variance of a row's expected value. */
  readonly ofRows: number;
  /** Variance of a column's expected value. */
  readonly ofColumns: number;
  /** What neither explains alone. */
  readonly ofRest: number;
}

/**
 * The analysis-of-variance estimators of a two-way crossed classification, both effects random, one observation a cell
 * (S. R. Searle, G. Casella and C. E. McCulloch, Variance Components, Wiley, 1992, chapter 4, from memory): unbiased
 * whatever the distributions, but for a negative estimate, which is put to 0. Rows that share their columns' luck need this
 * split: the one-way one, for inner draws that are independent (Y. Sun, D. W. Apley and J. Staum, Operations Research 59,
 * 998, 2011), would take the shared luck away from the rows a second time.
 * @param values at least two rows of at least two values
 */
export function crossedVariance(values: readonly (readonly number[])[]): CrossedVariance {
  const [rows, columns] = [values.length, values[0].length];
  if (rows < 2 || columns < 2) throw new RangeError(`two rows of two values are needed, not ${rows} of ${columns}`);
  const rowMeans = values.map((row) => average(row));
  const columnMeans = Array.from({ length: columns }, (_, i) => average(values.map((row) => row[i])));
  const mean = average(rowMeans);
  const squares = (deviations: readonly number[]) => deviations.reduce((sum, each) => sum + each * each, 0);
  const betweenRows = (columns * squares(rowMeans.map((row) => row - mean))) / (rows - 1);
  const betweenColumns = (rows * squares(columnMeans.map((column) => column - mean))) / (columns - 1);
  const rest = values.reduce(
    (sum, row, k) => sum + squares(row.map((value, i) => value - rowMeans[k] - columnMeans[i] + mean)),
    0,
  );
  const ofRest = rest / ((rows - 1) * (columns - 1));
  return {
    mean,
    rowMeans,
    ofRows: Math.max(0, (betweenRows - ofRest) / columns),
    ofColumns: Math.max(0, (betweenColumns - ofRest) / rows),
    ofRest,
  };
}

/**
 * The rows' means drawn together about their mean until they vary as much as the rows' expected values are estimated to:
 * what the noise of each mean adds to their spread is gone (T. A. Louis, J. Am. Stat. Assoc. 79, 393, 1984).
 */
export function expectedOfRows({ mean, rowMeans, ofRows }: CrossedVariance): readonly number[] {
  const seen = rowMeans.reduce((sum, row) => sum + (row - mean) * (row - mean), 0) / (rowMeans.length - 1);
  const share = seen > 0 ? Math.min(1, Math.sqrt(ofRows / seen)) : 0;
  return rowMeans.map((row) => mean + share * (row - mean));
}

function average(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
