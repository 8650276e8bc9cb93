import { average, type Numbers } from '../numbers.js';
import { type CrossProducts, forwardFit } from './forward.js';
import { columnsOf, rankShares, type Term, termsOf } from './terms.js';

/** Parts of the draws, each predicted from all others. */
const FOLDS = 10;

/** Terms at most, and draws at least for each of them. */
const MOST_TERMS = 300;
const DRAWS_PER_TERM = 5;

/**
 * What inputs say of a response: a regression on polynomials of their ranks, cross-fitted, so that no draw is predicted by a fit
 * that has seen it. A plain fit takes noise for what the inputs say (M. Strong, J. E. Oakley and A. Brennan, Med. Decis. Making 34,
 * 311, 2014, for the regression; V. Chernozhukov et al., Econometrics J. 21, C1, 2018, for the cross-fitting).
 */
export class Surrogate {
  readonly #terms: readonly Term[];
  readonly #columns: readonly Float64Array[];
  readonly #draws: number;
  /** Cross products of the terms without one fold, fold by fold. */
  readonly #without: readonly CrossProducts[];

  /** @param inputs draw by draw, at least one input and twenty draws, all independent of each other */
  constructor(inputs: readonly Numbers[]) {
    this.#draws = inputs[0].length;
    this.#terms = termsOf(inputs.length, Math.min(MOST_TERMS, this.#draws / DRAWS_PER_TERM));
    this.#columns = columnsOf(this.#terms, inputs.map(rankShares));
    const folds = Array.from({ length: FOLDS }, (_, fold) => productsIn(this.#columns, fold));
    const all = folds.reduce((sum, each) => combined(sum, each, 1));
    this.#without = folds.map((each) => combined(all, each, -1));
  }

  /**
   * What is to be expected of a response, draw by draw, where these inputs are known: about its mean over all draws, so that inputs
   * which say nothing give one value for all.
   * @param response one value a draw, in which noise may be
   * @param known numbers of the inputs
   */
  expected(response: Numbers, known: readonly number[]): Float64Array {
    const isKnown = new Set(known);
    const candidates = this.#terms.flatMap(({ inputs }, column) =>
      inputs.every((input) => isKnown.has(input)) ? [column] : [],
    );
    const result = new Float64Array(this.#draws).fill(average(response));
    for (let fold = 0; fold < FOLDS; fold += 1) {
      const outside = Math.floor((this.#draws - 1 - fold) / FOLDS) + 1;
      const products = this.#bordered(response, fold, candidates);
      const [, ...taken] = forwardFit(products, candidates, this.#draws - outside);
      for (const { column, coefficient } of taken) {
        const values = this.#columns[column];
        const middle = products[0][column] / products[0][0];
        for (let draw = fold; draw < this.#draws; draw += FOLDS) result[draw] += coefficient * (values[draw] - middle);
      }
    }
    return result;
  }

  /** The cross products without a fold, with those of the response behind them. */
  #bordered(response: Numbers, fold: number, candidates: readonly number[]): CrossProducts {
    const border = new Float64Array(this.#columns.length + 1);
    for (const column of candidates) border[column] = productOutside(this.#columns[column], response, fold);
    border[this.#columns.length] = productOutside(response, response, fold);
    const rows = this.#without[fold].map((row, i) => {
      const wider = new Float64Array(row.length + 1);
      wider.set(row);
      wider[row.length] = border[i];
      return wider;
    });
    return [...rows, border];
  }
}

function productsIn(columns: readonly Float64Array[], fold: number): CrossProducts {
  const products = columns.map(() => new Float64Array(columns.length));
  for (const [i, one] of columns.entries()) {
    for (let j = 0; j <= i; j += 1) {
      const other = columns[j];
      let sum = 0;
      for (let draw = fold; draw < one.length; draw += FOLDS) sum += one[draw] * other[draw];
      products[i][j] = sum;
      products[j][i] = sum;
    }
  }
  return products;
}

function productOutside(a: Numbers, b: Numbers, fold: number): number {
  let sum = 0;
  for (let draw = 0; draw < a.length; draw += 1) if (draw % FOLDS !== fold) sum += a[draw] * b[draw];
  return sum;
}

function combined(a: CrossProducts, b: CrossProducts, sign: 1 | -1): CrossProducts {
  return a.map((row, i) => row.map((value, j) => value + sign * b[i][j]));
}
