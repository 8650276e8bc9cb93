import { ln } from '../chance/elementary.js';
import { toFree } from './free.js';
import type { DistributionToFit } from './distributions.js';
import { isEvent, type Observation } from './observation.js';

/** Of two equal lives the spread is nothing, from which no distribution can start. */
const LEAST_SPREAD = 0.1;

/** Where an interval begins at zero, its event is looked for at its middle; else at the geometric mean of its ends. */
function typical({ from, to }: Observation): number {
  if (to === Infinity) return from;
  return from === 0 ? to / 2 : Math.sqrt(from) * Math.sqrt(to);
}

/**
 * Rough free parameters to start a search from: spread and place of the logarithms of the events, the place moved later by what was
 * censored.
 * @param observations with at least one event
 */
export function startOf(distribution: DistributionToFit, observations: readonly Observation[]): number[] {
  const logs = observations.filter(isEvent).map((one) => ln(typical(one)));
  const centre = logs.reduce((sum, one) => sum + one, 0) / logs.length;
  const variance = logs.reduce((sum, one) => sum + (one - centre) * (one - centre), 0) / logs.length;
  const logSd = Math.max(Math.sqrt(variance), LEAST_SPREAD);
  const censoredShare = 1 - logs.length / observations.length;
  // Censoring cuts off the late part, so the centre of all lies later than that of the events seen.
  const values = distribution.start(centre + 2 * censoredShare * logSd, logSd);
  return distribution.parameters.map((parameter, i) => toFree(parameter, values[i]));
}
