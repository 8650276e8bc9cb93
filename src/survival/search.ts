import { fromFree } from './free.js';
import type { DistributionToFit } from './distributions.js';
import { alike, logLikelihood } from './likelihood.js';
import { maximise, type Objective, type Peak } from './maximise.js';
import type { Observation } from './observation.js';
import { startOf } from './start.js';

/** ln 1000: shapes and spreads beyond it, either way, are no lives, but a likelihood that rises for ever. */
const FARTHEST_SHAPE = 6.907755278982137;

/** Scales may end up this far from the lives seen (natural logarithm), as they do where few of many have failed. */
const FARTHEST_SCALE = 40;

/** The distribution's parameters of its free numbers. */
export function valuesOf(distribution: DistributionToFit, free: readonly number[]): number[] {
  return distribution.parameters.map((parameter, i) => fromFree(parameter, free[i]));
}

/** The log-likelihood as a function of the free parameters alone. */
export function objectiveOf(distribution: DistributionToFit, observations: readonly Observation[]): Objective {
  const lives = alike(observations);
  return (free) => logLikelihood(distribution, valuesOf(distribution, free), lives);
}

/** Whether free parameters are still those of a life: else the search has followed a likelihood with no top. */
export function withinReach(
  distribution: DistributionToFit,
  start: readonly number[],
): (free: readonly number[]) => boolean {
  return (free) =>
    distribution.parameters.every(({ isExposure }, i) =>
      isExposure ? Math.abs(free[i] - start[i]) < FARTHEST_SCALE : Math.abs(free[i]) < FARTHEST_SHAPE,
    );
}

/**
 * The maximum of the likelihood of one distribution.
 * @param observations with at least one event
 * @param from free parameters to start at, where better ones are known than a look at the lives gives
 */
export function searchPeak(
  distribution: DistributionToFit,
  observations: readonly Observation[],
  from: readonly number[] = startOf(distribution, observations),
): Peak {
  return maximise(objectiveOf(distribution, observations), from, withinReach(distribution, from));
}
