import { CholeskyDecomposition, Matrix } from 'ml-matrix';

/** A smooth function of a few real numbers; -Infinity or NaN where it has no value. */
export type Objective = (at: readonly number[]) => number;

/** The top of a function. */
export interface Peak {
  readonly at: readonly number[];
  readonly value: number;
  /** Whether Newton's steps have died away where the function bends down every way. */
  readonly converged: boolean;
}

/** Step of the differences. On the scale of logarithms it costs nine digits of the slope to neither curvature nor rounding. */
const DIFFERENCE = 1e-4;

/** Longest step in any one number, so that a bad start doesn't throw the search out of sight. */
const LONGEST_STEP = 1;

/** A step this short is the last: what it leaves to go is of the order of its square. */
const LAST_STEP = 1e-5;

const MOST_STEPS = 80;

/** Steps are halved at most so often before the search gives up. */
const MOST_HALVINGS = 30;

/** What rounding may take from a sum of logarithms without a step being a bad one, relative to the sum. */
const ROUNDING = 1e-13;

interface Shape {
  readonly slope: readonly number[];
  readonly information: number[][];
}

/** Slope and curvature by central differences; 1 + p + p² values for p numbers. */
function shapeAt(f: Objective, at: readonly number[], value: number): Shape {
  const h = DIFFERENCE;
  const moved = (i: number, by: number, j = i, andBy = 0) => {
    const there = [...at];
    there[i] += by;
    there[j] += andBy;
    return f(there);
  };
  const above = at.map((_, i) => moved(i, h));
  const below = at.map((_, i) => moved(i, -h));
  const slope = at.map((_, i) => (above[i] - below[i]) / (2 * h));
  const information = at.map(() => at.map(() => 0));
  at.forEach((_, i) => {
    information[i][i] = (2 * value - above[i] - below[i]) / (h * h);
    for (let j = 0; j < i; j += 1) {
      const both = moved(i, h, j, h) + moved(i, -h, j, -h);
      const mixed = (above[i] + below[i] + above[j] + below[j] - 2 * value - both) / (2 * h * h);
      information[i][j] = mixed;
      information[j][i] = mixed;
    }
  });
  return { slope, information };
}

/** The step to the top of the parabola, made shorter and steeper (Levenberg) where the surface is no such parabola. */
function stepFrom({ slope, information }: Shape): { step: number[]; bowed: boolean } {
  const largest = information.reduce((most, row, i) => Math.max(most, Math.abs(row[i])), 1e-8);
  let ridge = 0;
  for (;;) {
    const bent = new Matrix(information.map((row, i) => row.map((one, j) => (i === j ? one + ridge : one))));
    const cholesky = new CholeskyDecomposition(bent);
    if (cholesky.isPositiveDefinite()) {
      const step = cholesky.solve(Matrix.columnVector([...slope])).to1DArray();
      return { step, bowed: ridge === 0 };
    }
    ridge = ridge === 0 ? 1e-3 * largest : 10 * ridge;
  }
}

/**
 * The top of a function near a start, by Newton's method with halved steps on differences of the function itself. For the few numbers and
 * the smooth surfaces of likelihoods; the linear algebra is a library's.
 * @param within tells where the search may go; it ends, not converged, where it would leave
 */
export function maximise(f: Objective, start: readonly number[], within: (at: readonly number[]) => boolean): Peak {
  let at = [...start];
  let value = f(at);
  for (let count = 0; count < MOST_STEPS; count += 1) {
    const shape = shapeAt(f, at, value);
    const known = shape.slope.every(Number.isFinite) && shape.information.every((row) => row.every(Number.isFinite));
    if (!known) break;
    const { step, bowed } = stepFrom(shape);
    const longest = step.reduce((most, one) => Math.max(most, Math.abs(one)), 0);
    let share = Math.min(1, LONGEST_STEP / longest);
    let next = at;
    let there = -Infinity;
    for (let halvings = 0; halvings < MOST_HALVINGS; halvings += 1) {
      const part = share;
      next = at.map((one, i) => one + part * step[i]);
      there = f(next);
      if (there >= value - ROUNDING * (1 + Math.abs(value))) break;
      share /= 2;
    }
    if (!(there >= value - ROUNDING * (1 + Math.abs(value))) || !within(next)) break;
    at = next;
    value = there;
    if (longest < LAST_STEP && bowed) return { at, value, converged: true };
  }
  return { at, value, converged: false };
}

/**
 * The covariance of maximum-likelihood estimates: the inverse of the observed information, minus the second derivatives of the log-likelihood at
 * its peak. Null where it has none that is one.
 */
export function covarianceAt(f: Objective, { at, value }: Peak): readonly (readonly number[])[] | null {
  const cholesky = new CholeskyDecomposition(new Matrix(shapeAt(f, at, value).information));
  if (!cholesky.isPositiveDefinite()) return null;
  return cholesky.solve(Matrix.eye(at.length)).to2DArray();
}
