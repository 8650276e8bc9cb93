import { exp, ln, log1p } from '../chance/elementary.js';
import { compileLife } from '../chance/life.js';
import type { LifeFit } from './fit-life.js';
import { toFit } from './distributions.js';
import { covarianceAt, maximise } from './maximise.js';
import type { Observation } from './observation.js';
import { type Ends, profileEnds } from './profile.js';
import { objectiveOf, valuesOf } from './search.js';

/** The exposure by which a share of the tips has failed, with its interval. */
export interface LifeQuantile extends Ends {
  readonly share: number;
  readonly value: number;
}

/**
 * The exposure by which a share of the tips has failed (share 0.1: the tenth percentile) with its profile-likelihood interval, found with that
 * exposure in place of the distribution's own parameter of exposure.
 * @param fit of these observations
 * @param share in (0, 1)
 */
export function lifeQuantile(fit: LifeFit, observations: readonly Observation[], share: number): LifeQuantile {
  const distribution = toFit(fit.distribution);
  const place = distribution.parameters.findIndex(({ isExposure }) => isExposure);
  /** ln of the quantile where the parameter of exposure is 1. */
  const logUnit = (free: readonly number[]) =>
    ln(compileLife(distribution.life(valuesOf(distribution, free.with(place, 0)))).exposureAt(-log1p(-share)));
  const objective = objectiveOf(distribution, observations);
  const byQuantile = (numbers: readonly number[]) => objective(numbers.with(place, numbers[place] - logUnit(numbers)));
  const start = fit.free.with(place, fit.free[place] + logUnit(fit.free));
  const peak = maximise(byQuantile, start, () => true);
  const covariance = covarianceAt(byQuantile, peak) ?? fit.covariance;
  const ends = profileEnds(byQuantile, peak, place, covariance, fit.level);
  const shown = (end: number | null) => (end === null ? null : exp(end));
  return { share, value: exp(peak.at[place]), low: shown(ends.low), high: shown(ends.high) };
}
