import type { LifeFit } from '../../survival/fit-life.js';
import { lifeQuantile } from '../../survival/life-quantile.js';
import type { Observation } from '../../survival/observation.js';
import type { Interval } from './results.js';

/** The use by which half of the tips have failed of this cause. */
export function medianOf(fit: LifeFit, observations: readonly Observation[]): Interval {
  const { value, low, high } = lifeQuantile(fit, observations, 0.5);
  return { value, low, high };
}
