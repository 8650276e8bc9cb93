import { gammaincinv, pow } from '../chance/elementary.js';
import { isEvent, type Observation } from './observation.js';

/** A chi-square quantile with an even number of degrees of freedom, 2 · half. */
function chiSquareQuantile(share: number, half: number): number {
  return 2 * gammaincinv(share, half, false);
}

/** Mean life under a constant hazard, from the total exposure and the number of events alone. */
export interface MeanInterval {
  /** Null without events: no best value exists then. */
  readonly mean: number | null;
  readonly low: number;
  /** Null without events: no upper end exists then. */
  readonly high: number | null;
}

/**
 * Exact interval of a mean life under a constant hazard, where observation ended at set exposures and not at an event (NIST/SEMATECH e-Handbook
 * of Statistical Methods, 8.4.5.1: chi-square with 2r + 2 degrees of freedom below, 2r above). Without events it is one-sided: the lower end
 * then has the whole of the level.
 * @param exposure total over all tips, above 0
 * @param events r, a whole number
 * @param level of confidence, in (0, 1)
 */
export function exponentialInterval(exposure: number, events: number, level: number): MeanInterval {
  if (events === 0) return { mean: null, low: (2 * exposure) / chiSquareQuantile(level, 1), high: null };
  const tail = (1 - level) / 2;
  return {
    mean: exposure / events,
    low: (2 * exposure) / chiSquareQuantile(1 - tail, events + 1),
    high: (2 * exposure) / chiSquareQuantile(tail, events),
  };
}

/** Exposure over which tips were watched, an interval counted to its middle. */
export function totalExposure(observations: readonly Observation[]): number {
  return observations.reduce((sum, { entry, from, to }) => sum + (to < Infinity ? (from + to) / 2 : from) - entry, 0);
}

/**
 * Lower end of a Weibull scale whose shape is taken as known, for few events or none (R. B. Abernethy, The New Weibull Handbook, chapter 6:
 * lives raised to the shape are exponential).
 * @param shape assumed, above 0
 * @param level of confidence, one-sided, in (0, 1)
 */
export function weibullScaleBound(observations: readonly Observation[], shape: number, level: number): number {
  const events = observations.filter(isEvent).length;
  const total = observations.reduce((sum, { entry, from }) => sum + pow(from, shape) - pow(entry, shape), 0);
  return pow((2 * total) / chiSquareQuantile(level, events + 1), 1 / shape);
}
