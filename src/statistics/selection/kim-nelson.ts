import { pow } from '../../chance/elementary.js';
import type { Observing, Procedure, Sequential } from './observing.js';

/** η and h² of a fully sequential procedure with the triangular continuation region (c = 1). */
export interface Continuation {
  readonly eta: number;
  readonly h2: number;
}

/**
 * η = ½[(2β)^(−2/(n₀−1)) − 1] and h² = 2η(n₀ − 1) for one comparison that may go wrong with chance β. Kim and Nelson's
 * procedure takes β = α/(k − 1), which holds under common random numbers too.
 * @param beta in (0, ½)
 * @param firstStage n₀, at least 2
 */
export function continuation(beta: number, firstStage: number): Continuation {
  const eta = (pow(2 * beta, -2 / (firstStage - 1)) - 1) / 2;
  return { eta, h2: 2 * eta * (firstStage - 1) };
}

export interface SelectionTask extends Sequential {
  /** Those among which the best is wanted, at least one. */
  readonly systems: readonly number[];
  /**
   * How many the error is shared among; more than `systems` where some were dropped before, on the same observations, so
   * that every comparison that could have come up has its share.
   */
  readonly sharedAmong: number;
  readonly sense: 'least' | 'most';
}

export interface Elimination {
  readonly system: number;
  /** Observations of it by then. */
  readonly after: number;
}

export interface Selection {
  readonly selected: number;
  /** Not eliminated, the selected one among them. */
  readonly survivors: readonly number[];
  readonly eliminated: readonly Elimination[];
  /** Observations of each survivor. */
  readonly observations: number;
  /** False where it had to end before the procedure let it, so that its promise does not hold. */
  readonly isDecided: boolean;
}

/**
 * Selects the system with the best mean by the fully sequential procedure KN of S.-H. Kim and B. L. Nelson (ACM Trans. Model.
 * Comput. Simul. 11(3), 251–273, 2001), c = 1: right with chance 1 − α at least whenever the best is better than all others by
 * the indifference zone or more, for normal observations, whatever their variances and correlations between systems. Of equal
 * means the system named first is taken.
 */
export function* selectBest(task: SelectionTask, { observe, mayGoOn }: Observing): Procedure<Selection> {
  const { systems, sharedAmong, error, firstStage, zone } = task;
  const sign = task.sense === 'most' ? 1 : -1;
  const [first] = systems;
  if (systems.length === 1)
    return { selected: first, survivors: systems, eliminated: [], observations: firstStage, isDecided: true };
  const { h2 } = continuation(error / (sharedAmong - 1), firstStage);
  yield { systems, observations: firstStage };
  const totals = systems.map((system) => sign * totalOf(observe, system, firstStage));
  const reach = pairReaches(systems, observe, firstStage, h2 / zone);
  const longestOf = (places: readonly number[]) =>
    Math.floor(Math.max(...places.flatMap((place) => places.map((rival) => reach[place][rival]))) / zone);
  const eliminated: Elimination[] = [];
  let left = systems.map((_, place) => place);
  let longest = longestOf(left);
  let observations = firstStage;
  const isBehind = (place: number, rival: number) =>
    totals[place] < totals[rival] - Math.max(0, (reach[place][rival] - zone * observations) / 2);
  while (observations <= longest) {
    const kept = left.filter((place) => !left.some((rival) => isBehind(place, rival)));
    for (const place of left)
      if (!kept.includes(place)) eliminated.push({ system: systems[place], after: observations });
    if (kept.length < left.length) longest = longestOf(kept);
    left = kept;
    if (left.length === 1 || !mayGoOn(left.length)) break;
    yield { systems: left.map((place) => systems[place]), observations: observations + 1 };
    for (const place of left) totals[place] += sign * observe(systems[place], observations);
    observations += 1;
  }
  const best = left.reduce((ahead, place) => (totals[place] > totals[ahead] ? place : ahead), left[0]);
  return {
    selected: systems[best],
    survivors: left.map((place) => systems[place]),
    eliminated,
    observations,
    isDecided: left.length === 1 || observations > longest,
  };
}

function totalOf(observe: Observing['observe'], system: number, count: number): number {
  let total = 0;
  for (let index = 0; index < count; index += 1) total += observe(system, index);
  return total;
}

/** `factor` times the sample variance of the paired difference of every two systems over the first stage. */
function pairReaches(
  systems: readonly number[],
  observe: Observing['observe'],
  firstStage: number,
  factor: number,
): readonly (readonly number[])[] {
  const rows = systems.map((system) => Array.from({ length: firstStage }, (_, index) => observe(system, index)));
  return rows.map((a) => rows.map((b) => factor * differenceVariance(a, b)));
}

/** Sample variance of the paired differences. */
export function differenceVariance(a: readonly number[], b: readonly number[]): number {
  const differences = a.map((value, index) => value - b[index]);
  const centre = differences.reduce((sum, value) => sum + value, 0) / differences.length;
  return differences.reduce((sum, value) => sum + (value - centre) * (value - centre), 0) / (differences.length - 1);
}
