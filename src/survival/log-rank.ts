import { LuDecomposition, Matrix } from 'ml-matrix';
import { gammainc } from '../chance/elementary.js';
import { assertLives, isInterval, isEvent, type Observation } from './observation.js';

/** Whether groups of tips die alike. */
export interface LogRank {
  readonly chiSquare: number;
  /** One less than the number of groups. */
  readonly degreesOfFreedom: number;
  readonly pValue: number;
  /** Events of each group, weighted where the test weights. */
  readonly observed: readonly number[];
  /** What each group would have had if all died alike. */
  readonly expected: readonly number[];
}

/** How events count: alike, or by the share of all tips that still live before them, so that early ones count more. */
export type RankWeight = 'equal' | 'early';

/**
 * The log-rank test (N. Mantel, Cancer Chemother. Rep. 50, 163, 1966), with the hypergeometric variance, for exact and right-censored lives,
 * entry after zero allowed; weighted early as by R. Peto and J. Peto, J. R. Stat. Soc. A 135, 185, 1972.
 * @param groups at least two
 * @throws RangeError for fewer groups, an observation that is no life, or one known only to an interval
 */
export function logRank(groups: readonly (readonly Observation[])[], weighting: RankWeight = 'equal'): LogRank {
  if (groups.length < 2) throw new RangeError(`a comparison needs at least two groups, not ${groups.length}`);
  groups.forEach(assertLives);
  const all = groups.flat();
  if (all.some(isInterval))
    throw new RangeError('a life is known only to an interval, which the log-rank test cannot rank');
  const times = [...new Set(all.filter(isEvent).map(({ from }) => from))].sort((a, b) => a - b);
  const observed = groups.map(() => 0);
  const expected = groups.map(() => 0);
  const covariance = groups.map(() => groups.map(() => 0));
  let survival = 1;
  for (const time of times) {
    const atRisk = groups.map((group) => group.filter(({ entry, from }) => entry < time && from >= time).length);
    const events = groups.map((group) => group.filter((one) => isEvent(one) && one.from === time).length);
    const total = atRisk.reduce((sum, one) => sum + one, 0);
    const failed = events.reduce((sum, one) => sum + one, 0);
    const weight = weighting === 'equal' ? 1 : survival;
    const spread = total > 1 ? (weight * weight * failed * (total - failed)) / (total * total * (total - 1)) : 0;
    atRisk.forEach((n, i) => {
      observed[i] += weight * events[i];
      expected[i] += (weight * failed * n) / total;
      atRisk.forEach((m, j) => (covariance[i][j] += spread * n * ((i === j ? total : 0) - m)));
    });
    survival *= (total - failed) / total;
  }
  const degreesOfFreedom = groups.length - 1;
  const excess = observed.slice(1).map((one, i) => one - expected[i + 1]);
  // The last follows from the others, so one group is left out.
  const matrix = new Matrix(covariance.slice(1).map((row) => row.slice(1)));
  const lu = new LuDecomposition(matrix);
  const solved = lu.isSingular() ? excess.map(() => 0) : lu.solve(Matrix.columnVector(excess)).to1DArray();
  const chiSquare = excess.reduce((sum, one, i) => sum + one * solved[i], 0);
  return {
    chiSquare,
    degreesOfFreedom,
    pValue: gammainc(chiSquare / 2, degreesOfFreedom / 2, true, true),
    observed,
    expected,
  };
}
