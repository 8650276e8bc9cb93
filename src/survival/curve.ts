import { kaplanMeier } from './kaplan-meier.js';
import { isInterval, type Observation } from './observation.js';
import { type IntervalCurve, type MassCell, turnbull } from './turnbull.js';

/** Any level will do: only the curve is wanted, not its band. */
const LEVEL = 0.95;

/**
 * The survival curve with no distribution assumed, as cells of mass: Kaplan and Meier's where every event is known exactly, Turnbull's where not.
 * @throws RangeError for an observation that is no life
 */
export function curveOf(observations: readonly Observation[]): IntervalCurve {
  if (observations.some(isInterval)) return turnbull(observations);
  const cells: MassCell[] = [];
  let left = 1;
  let last = 0;
  for (const { time, survival, events } of kaplanMeier(observations, LEVEL)) {
    if (events > 0) cells.push({ from: time, to: time, mass: left - survival });
    left = survival;
    last = time;
  }
  if (left > 0) cells.push({ from: last, to: Infinity, mass: left });
  return { cells, iterations: 0, converged: true };
}
