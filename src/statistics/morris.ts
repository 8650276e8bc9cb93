import { mean, sum } from 'simple-statistics';

/**
 * Elementary effects: M. D. Morris, Technometrics 33, 161 (1991); mu* after F. Campolongo, J. Cariboni and A. Saltelli,
 * Environ. Model. Softw. 22, 1509 (2007). Every input lies on a grid of levels from 0 to 1 and is moved once in a trajectory.
 */

/** A walk over the grid: from `start`, the inputs are moved one after the other, each to `moves[input]`. */
export interface Trajectory {
  readonly start: readonly number[];
  readonly moves: readonly number[];
  /** Numbers of the inputs, in the order in which they move. */
  readonly order: readonly number[];
}

/** Effect of one input in one trajectory, value by value of what was computed. */
export interface ElementaryEffect {
  readonly input: number;
  readonly values: readonly number[];
}

/** Length of a move with an even number of levels: just over half of the grid, so that all levels come equally often. */
export function stepOf(levels: number): number {
  return levels / (2 * (levels - 1));
}

/**
 * A random trajectory.
 * @param levels an even number
 * @param uniform draws in (0, 1): of an input's start (kind 0) and of its place in the order (kind 1)
 */
export function randomTrajectory(
  inputs: number,
  levels: number,
  uniform: (kind: 0 | 1, input: number) => number,
): Trajectory {
  const numbers = Array.from({ length: inputs }, (_, input) => input);
  const start = numbers.map((input) => Math.floor(levels * uniform(0, input)) / (levels - 1));
  const step = stepOf(levels);
  const ranks = numbers.map((input) => uniform(1, input));
  return {
    start,
    moves: start.map((level) => (level < 0.5 ? level + step : level - step)),
    order: numbers.sort((a, b) => ranks[a] - ranks[b]),
  };
}

/** The points of a trajectory from its start on, one more than there are inputs. */
export function pointsAlong({ start, moves, order }: Trajectory): readonly (readonly number[])[] {
  const points = [start];
  for (const input of order) {
    const [point] = points.slice(-1);
    points.push(point.map((level, each) => (each === input ? moves[input] : level)));
  }
  return points;
}

/**
 * The effects along a trajectory: what a move changes, per length of the move.
 * @param values at each point of `pointsAlong`, always as many; null where it is none, which takes the effects beside it away
 */
export function effectsAlong(
  { start, moves, order }: Trajectory,
  values: readonly (readonly number[] | null)[],
): readonly ElementaryEffect[] {
  return order.flatMap((input, move) => {
    const length = moves[input] - start[input];
    const [before, after] = [values[move], values[move + 1]];
    if (before === null || after === null) return [];
    return [{ input, values: differences(after, before).map((d) => d / length) }];
  });
}

function differences(after: readonly number[], before: readonly number[]): readonly number[] {
  return after.map((value, i) => value - before[i]);
}

/** What the effects of one input come to. */
export interface MorrisMeasures {
  readonly mu: number;
  /** Mean size without sign: how much the input matters. */
  readonly muStar: number;
  /** Sample standard deviation: how much that hangs on the others, or on where it stands; 0 for a single effect. */
  readonly sigma: number;
  readonly effects: number;
}

/** @param effects at least one */
export function morrisMeasures(effects: readonly number[]): MorrisMeasures {
  const mu = mean([...effects]);
  const squares = sum(effects.map((effect) => (effect - mu) * (effect - mu)));
  return {
    mu,
    muStar: mean(effects.map(Math.abs)),
    sigma: effects.length < 2 ? 0 : Math.sqrt(squares / (effects.length - 1)),
    effects: effects.length,
  };
}
