import { ln } from '../../chance/elementary.js';

/** Cross products of columns, row by row; symmetric. */
export type CrossProducts = readonly Float64Array[];

/** A column that was taken, by its number, and what it is multiplied by. */
export interface Taken {
  readonly column: number;
  readonly coefficient: number;
}

/** What is left of a column beside those taken, as a share of it, below which it follows from them. */
const NOTHING_NEW = 1e-6;

/** What is left to be explained, as a share of all, below which it is rounding. */
const NOTHING_LEFT = 1e-12;

/** At most one column is taken for so many draws. */
const DRAWS_PER_COLUMN = 10;

/**
 * Least squares on columns taken one after the other, each time the one that leaves least: the first of `candidates` always, others
 * while n ln(residual before / after) is at least ln n + 2 ln candidates, the price of the extended Bayesian information criterion, by
 * which columns of noise stay out however many compete (J. Chen and Z. Chen, Biometrika 95, 759, 2008). The arithmetic is the sweep
 * operator (J. H. Goodnight, Am. Stat. 33, 149, 1979).
 * @param products of all columns, that of what is to be explained last
 * @param candidates numbers of columns
 * @param draws n, behind the products
 */
export function forwardFit(products: CrossProducts, candidates: readonly number[], draws: number): readonly Taken[] {
  const columns = [...candidates, products.length - 1];
  const matrix = columns.map((row) => Float64Array.from(columns, (column) => products[row][column]));
  const last = candidates.length;
  const price = ln(draws) + 2 * ln(last);
  const whole = candidates.map((_, place) => matrix[place][place]);
  const taken = [0];
  sweep(matrix, 0);
  const all = matrix[last][last];
  while (taken.length < Math.min(last, draws / DRAWS_PER_COLUMN)) {
    let [best, gained] = [-1, 0];
    for (let place = 1; place < last; place += 1) {
      const left = matrix[place][place];
      if (taken.includes(place) || !(left > NOTHING_NEW * whole[place])) continue;
      const gain = (matrix[place][last] * matrix[place][last]) / left;
      if (gain > gained) [best, gained] = [place, gain];
    }
    const residual = matrix[last][last];
    // A column that explains all that is left is worth any price.
    const rest = residual - gained;
    if (best < 0 || residual <= NOTHING_LEFT * all || (rest > 0 && draws * ln(residual / rest) < price)) break;
    sweep(matrix, best);
    taken.push(best);
  }
  return taken.map((place) => ({ column: candidates[place], coefficient: matrix[place][last] }));
}

function sweep(matrix: readonly Float64Array[], pivot: number): void {
  const row = matrix[pivot];
  const at = row[pivot];
  for (let j = 0; j < row.length; j += 1) row[j] /= at;
  for (const [i, other] of matrix.entries()) {
    const factor = other[pivot];
    if (i === pivot || factor === 0) continue;
    for (let j = 0; j < row.length; j += 1) other[j] -= factor * row[j];
    other[pivot] = -factor / at;
  }
  row[pivot] = 1 / at;
}
