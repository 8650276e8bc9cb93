import { exp } from '../chance/elementary.js';
import { compileLife } from '../chance/life.js';
import { fromFree } from './free.js';
import { type FittedDistribution, type FittedLife, toFit, type DistributionToFit } from './distributions.js';
import { covarianceAt } from './maximise.js';
import { assertLives, isEvent, type Observation } from './observation.js';
import { type Ends, profileEnds } from './profile.js';
import { objectiveOf, searchPeak } from './search.js';

/** A parameter with its profile-likelihood interval; an end that the likelihood doesn't set is null. */
export interface FittedParameter extends Ends {
  /** As scenario files call it. */
  readonly name: string;
  readonly value: number;
}

/** A distribution fitted by maximum likelihood. */
export interface LifeFit {
  readonly converged: true;
  readonly distribution: FittedDistribution;
  /** In the order of scenario files. */
  readonly parameters: readonly FittedParameter[];
  /** Densities per unit of exposure, with no other constant left out or put in. */
  readonly logLikelihood: number;
  /** Akaike's information criterion, 2 · parameters - 2 · logLikelihood. */
  readonly aic: number;
  /**
   * Free parameters in the same order: ln mean; ln shape, ln scale; ln median, ln(ln geometricSd); ln shape, ln scale.
   */
  readonly free: readonly number[];
  /** Of the free parameters, from the observed information. */
  readonly covariance: readonly (readonly number[])[];
  readonly events: number;
  readonly observations: number;
  /** Confidence level of the intervals. */
  readonly level: number;
}

/** Why there is no fit: no event was seen; or the likelihood has no top, as where all events came at one exposure. */
export type NoFitReason = 'no-events' | 'no-finite-maximum';

export interface NoFit {
  readonly converged: false;
  readonly distribution: FittedDistribution;
  readonly reason: NoFitReason;
  readonly events: number;
  readonly observations: number;
}

/**
 * Fits a distribution by maximum likelihood to exact, right-censored, interval-censored and left-truncated lives, with profile-likelihood intervals.
 * @param level of confidence, in (0, 1)
 * @throws RangeError for an observation that is no life
 */
export function fitLife(
  name: FittedDistribution,
  observations: readonly Observation[],
  level: number,
): LifeFit | NoFit {
  assertLives(observations);
  const distribution = toFit(name);
  const events = observations.filter(isEvent).length;
  const none = (reason: NoFitReason): NoFit => ({
    converged: false,
    distribution: name,
    reason,
    events,
    observations: observations.length,
  });
  if (events === 0) return none('no-events');
  const peak = searchPeak(distribution, observations);
  const objective = objectiveOf(distribution, observations);
  const covariance = peak.converged ? covarianceAt(objective, peak) : null;
  if (covariance === null) return none('no-finite-maximum');
  return {
    converged: true,
    distribution: name,
    parameters: distribution.parameters.map((parameter, i) => {
      const ends = profileEnds(objective, peak, i, covariance, level);
      const value = fromFree(parameter, peak.at[i]);
      const shown = (end: number | null) => (end === null ? null : fromFree(parameter, end));
      return { name: parameter.name, value, low: shown(ends.low), high: shown(ends.high) };
    }),
    logLikelihood: peak.value,
    aic: 2 * peak.at.length - 2 * peak.value,
    free: peak.at,
    covariance,
    events,
    observations: observations.length,
    level,
  };
}

/** What is needed of a fit to know the life it describes. */
export type FittedParameters = Pick<LifeFit, 'distribution'> & {
  readonly parameters: readonly Pick<FittedParameter, 'value'>[];
};

function valuesIn({ parameters }: FittedParameters): number[] {
  return parameters.map(({ value }) => value);
}

function distributionIn({ distribution }: FittedParameters): DistributionToFit {
  return toFit(distribution);
}

/** The life that a fit describes, as a scenario holds it. */
export function lifeOf(fit: FittedParameters): FittedLife {
  return distributionIn(fit).life(valuesIn(fit));
}

/** Mean life of a fit, in units of exposure. */
export function meanOf(fit: FittedParameters): number {
  return distributionIn(fit).mean(valuesIn(fit));
}

/** Fitted share of tips that live past an exposure. */
export function survivalOf(fit: FittedParameters): (exposure: number) => number {
  const life = compileLife(lifeOf(fit));
  return (exposure) => exp(-life.cumulativeHazard(exposure));
}

/** Fitted hazard rate at an exposure above zero, in 1/exposure. */
export function hazardOf(fit: FittedParameters): (exposure: number) => number {
  const life = compileLife(lifeOf(fit));
  const logDensity = distributionIn(fit).logDensity(valuesIn(fit));
  return (exposure) => exp(logDensity(exposure) + life.cumulativeHazard(exposure));
}
