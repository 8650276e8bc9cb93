import { expm1, ln } from '../chance/elementary.js';
import { compileLife } from '../chance/life.js';
import type { DistributionToFit } from './distributions.js';
import type { Observation } from './observation.js';

/** Lives that are alike, taken together. */
export interface Alike extends Observation {
  readonly count: number;
}

/** Takes lives that are alike together, in the order in which each first comes: many tips are taken off at the same exposure. */
export function alike(observations: readonly Observation[]): readonly Alike[] {
  const found = new Map<string, { entry: number; from: number; to: number; count: number }>();
  for (const { entry, from, to } of observations) {
    const key = `${entry} ${from} ${to}`;
    const one = found.get(key);
    if (one === undefined) found.set(key, { entry, from, to, count: 1 });
    else one.count += 1;
  }
  return [...found.values()];
}

/**
 * Log-likelihood of lives: an exact event gives ln f, a right-censored life ln S(from), an interval ln(S(from) - S(to)), and each is given
 * that the tip had lived to its entry (J. F. Lawless, Statistical Models and Methods for Lifetime Data, 2nd ed. 2003, chapter 2).
 * @param values parameters of the distribution, as scenario files give them
 * @returns -Infinity where the lives can't be, or the parameters are out of reach of the arithmetic
 */
export function logLikelihood(
  distribution: DistributionToFit,
  values: readonly number[],
  lives: readonly Alike[],
): number {
  const life = compileLife(distribution.life(values));
  const logDensity = distribution.logDensity(values);
  let sum = 0;
  for (const { entry, from, to, count } of lives) {
    const atEntry = entry > 0 ? life.cumulativeHazard(entry) : 0;
    if (from === to) {
      sum += count * (atEntry + logDensity(from));
    } else {
      const before = life.cumulativeHazard(from);
      const within = to < Infinity ? ln(-expm1(before - life.cumulativeHazard(to))) : 0;
      sum += count * (atEntry - before + within);
    }
  }
  return Number.isNaN(sum) ? -Infinity : sum;
}
