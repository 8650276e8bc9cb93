import { exp } from '../chance/elementary.js';
import { semidefiniteFactor } from '../statistics/cholesky.js';
import { fromFree } from './free.js';
import { type FittedDistribution, toFit, type DistributionParameter } from './distributions.js';
import { covarianceAt, maximise, type Objective } from './maximise.js';
import { assertLives, type Observation } from './observation.js';
import { objectiveOf } from './search.js';

/** What is held of a free parameter before the log: normal on its scale, so that a range of a life is lognormal. */
export interface NormalPrior {
  readonly centre: number;
  /** Above zero. */
  readonly standardDeviation: number;
}

/** What is held of a distribution's parameters after the log. */
export interface Posterior {
  readonly distribution: FittedDistribution;
  /** In the order of scenario files: the value at the mean of the free parameter, with its central interval. */
  readonly parameters: readonly {
    readonly name: string;
    readonly value: number;
    readonly low: number;
    readonly high: number;
  }[];
  /** Means and covariance of the free parameters, in the same order. */
  readonly free: readonly number[];
  readonly covariance: readonly (readonly number[])[];
  /** Expected value of a function of the free parameters. */
  readonly expected: (of: Objective) => number;
}

/** Distance of grid points in standard deviations of the peak, along the parameter that is looked at and across it. */
export interface Grid {
  readonly along: number;
  readonly across: number;
}

const GRID: Grid = { along: 0.1, across: 0.5 };

/** How far the grid reaches at first, in the same unit; it grows until what lies on its rim is nothing. */
const REACH = 8;
const ON_THE_RIM = 1e-12;

/** Independent normals on the free scales. */
export function normalPriors(priors: readonly NormalPrior[]): Objective {
  return (free) =>
    priors.reduce((sum, { centre, standardDeviation }, i) => {
      const z = (free[i] - centre) / standardDeviation;
      return sum - (z * z) / 2;
    }, 0);
}

/**
 * What is held of a distribution after a log, by Bayes' theorem on a grid about the posterior's peak (A. Gelman et al., Bayesian Data
 * Analysis, 3rd ed. 2013, section 3.7). Without observations it is the prior.
 * @param logPrior of the free parameters, but for a constant
 * @param start free parameters at which the search for the peak begins
 * @param level of the central intervals, in (0, 1)
 * @returns null where prior and log have no peak together
 */
export function posteriorOf(
  name: FittedDistribution,
  observations: readonly Observation[],
  logPrior: Objective,
  start: readonly number[],
  level: number,
  grid = GRID,
): Posterior | null {
  assertLives(observations);
  const distribution = toFit(name);
  const likelihood = objectiveOf(distribution, observations);
  const density: Objective = (free) => likelihood(free) + logPrior(free);
  const peak = maximise(density, start, () => true);
  const covariance = peak.converged ? covarianceAt(density, peak) : null;
  if (covariance === null) return null;
  const about = { density, at: peak.at, value: peak.value, covariance };
  const sheets = distribution.parameters.map((_, first) => sheetAlong(about, first, grid));
  const [sheet] = sheets;
  const expected = (of: Objective) => sheet.nodes.reduce((sum, { free, weight }) => sum + weight * of(free), 0);
  const means = distribution.parameters.map((_, i) => expected((free) => free[i]));
  return {
    distribution: name,
    parameters: distribution.parameters.map((parameter, i) => ({
      name: parameter.name,
      value: fromFree(parameter, means[i]),
      ...ends(parameter, sheets[i], level),
    })),
    free: means,
    covariance: means.map((a, i) => means.map((b, j) => expected((free) => (free[i] - a) * (free[j] - b)))),
    expected,
  };
}

interface About {
  readonly density: Objective;
  readonly at: readonly number[];
  readonly value: number;
  readonly covariance: readonly (readonly number[])[];
}

interface Sheet {
  readonly nodes: readonly { readonly free: readonly number[]; readonly weight: number }[];
  /** Values of the parameter looked at, evenly spaced and ascending, and the weight of each. */
  readonly places: readonly number[];
  readonly weights: readonly number[];
}

/** A grid whose first axis is one parameter; the axes across it follow its correlation with the others. */
function sheetAlong(about: About, first: number, grid: Grid, reach = REACH): Sheet {
  const { at, value, covariance, density } = about;
  const order = [first, ...at.flatMap((_, i) => (i === first ? [] : [i]))];
  const factor = semidefiniteFactor(order.map((i) => order.map((j) => covariance[i][j])));
  if (factor === null) throw new RangeError('the covariance at a peak is none');
  const steps = order.map((_, axis) => Math.ceil(reach / (axis === 0 ? grid.along : grid.across)));
  const nodes: { free: readonly number[]; weight: number; isRim: boolean }[] = [];
  const weights = new Array<number>(2 * steps[0] + 1).fill(0);
  const visit = (indices: readonly number[]): void => {
    const axis = indices.length;
    if (axis < order.length) {
      for (let index = -steps[axis]; index <= steps[axis]; index += 1) visit([...indices, index]);
      return;
    }
    const z = indices.map((index, each) => (index * reach) / steps[each]);
    const free = [...at];
    order.forEach((parameter, row) => {
      free[parameter] += z.reduce((sum, one, column) => sum + factor[row][column] * one, 0);
    });
    const weight = exp(density(free) - value);
    weights[indices[0] + steps[0]] += weight;
    nodes.push({ free, weight, isRim: indices.some((index, each) => Math.abs(index) === steps[each]) });
  };
  visit([]);
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  const rim = nodes.reduce((sum, { weight, isRim }) => sum + (isRim ? weight : 0), 0);
  if (rim > ON_THE_RIM * whole) return sheetAlong(about, first, grid, 1.5 * reach);
  return {
    nodes: nodes.map(({ free, weight }) => ({ free, weight: weight / whole })),
    places: weights.map((_, i) => at[first] + ((i - steps[0]) * reach * factor[0][0]) / steps[0]),
    weights: weights.map((weight) => weight / whole),
  };
}

function ends(
  parameter: DistributionParameter,
  sheet: Sheet,
  level: number,
): { readonly low: number; readonly high: number } {
  const tail = (1 - level) / 2;
  return { low: fromFree(parameter, quantile(sheet, tail)), high: fromFree(parameter, quantile(sheet, 1 - tail)) };
}

/**
 * A quantile of weights at evenly spaced places: what lies below a place by the trapezoidal rule with its first correction (Euler and
 * Maclaurin), and between two places by the cubic that has their sums and densities.
 */
function quantile({ places, weights }: Sheet, share: number): number {
  const below: number[] = [];
  let sum = 0;
  weights.forEach((weight, i) => {
    const slope = ((weights.at(i + 1) ?? 0) - (i === 0 ? 0 : weights[i - 1])) / 2;
    below.push(sum + weight / 2 - slope / 12);
    sum += weight;
  });
  const next = below.findIndex((value) => value >= share);
  if (next < 1) return places[0];
  const [from, to] = [below[next - 1], below[next]];
  const at = (t: number) =>
    from * (1 + 2 * t) * (1 - t) * (1 - t) +
    weights[next - 1] * t * (1 - t) * (1 - t) +
    to * t * t * (3 - 2 * t) -
    weights[next] * t * t * (1 - t);
  let [low, high] = [0, 1];
  for (let halving = 0; halving < 50; halving += 1) {
    const middle = (low + high) / 2;
    if (at(middle) < share) low = middle;
    else high = middle;
  }
  return places[next - 1] + low * (places[next] - places[next - 1]);
}
