import { exp } from '../chance/elementary.js';
import { type RiskRow, riskTable } from './kaplan-meier.js';
import type { Observation } from './observation.js';
import { halfWidth } from './profile.js';

/** The cumulative hazard from one exposure to the next. */
export interface HazardStep extends RiskRow {
  readonly cumulativeHazard: number;
  /** Aalen's. */
  readonly variance: number;
  /** On the log scale; null before the first event. */
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * The cumulative hazard of exact and right-censored lives, entry after zero allowed: the sum of events over tips at risk (W. Nelson, J. Qual.
 * Technol. 1, 27, 1969; O. Aalen, Ann. Stat. 6, 701, 1978).
 * @param level of confidence at each exposure, in (0, 1)
 * @throws RangeError for an observation that is no life, or known only to an interval
 */
export function nelsonAalen(observations: readonly Observation[], level: number): HazardStep[] {
  const wanted = halfWidth(level);
  let cumulativeHazard = 0;
  let variance = 0;
  return riskTable(observations).map((row) => {
    cumulativeHazard += row.events / row.atRisk;
    variance += row.events / (row.atRisk * row.atRisk);
    if (cumulativeHazard === 0) return { ...row, cumulativeHazard, variance, low: null, high: null };
    const factor = exp((wanted * Math.sqrt(variance)) / cumulativeHazard);
    return { ...row, cumulativeHazard, variance, low: cumulativeHazard / factor, high: cumulativeHazard * factor };
  });
}
