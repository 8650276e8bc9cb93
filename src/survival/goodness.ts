import { compileLife } from '../chance/life.js';
import { curveOf } from './curve.js';
import { type Distance, distanceOf } from './distance.js';
import { type LifeFit, lifeOf } from './fit-life.js';
import { toFit } from './distributions.js';
import { isEvent, isInterval, type Observation } from './observation.js';
import { resampler } from './resample.js';
import { searchPeak, valuesOf } from './search.js';

/** A distance, and how often lives that do follow the distribution come out as far from their own fit. */
export interface TestedDistance {
  readonly value: number;
  readonly pValue: number;
}

export interface Goodness {
  /** Kolmogorov and Smirnov's D. */
  readonly largest: TestedDistance;
  /** Null where lives are known to intervals: the curve is then known over too little for an average. */
  readonly cramerVonMises: TestedDistance | null;
  readonly andersonDarling: TestedDistance | null;
  /** Made logs that were fitted. */
  readonly replications: number;
  /** Made logs that could not be fitted, and count for nothing. */
  readonly failed: number;
}

/**
 * Whether lives can be of the distribution fitted to them, by parametric bootstrap: logs are made under the fitted distribution with the censoring of this one,
 * each is fitted anew, and its distance counted where it's as large. So the parameters' having been fitted, and the censoring, are both
 * allowed for (W. Stute, W. González Manteiga and M. Presedo Quindimil, Metrika 40, 243, 1993). p is (r + 1) / (replications + 1).
 * @param fit of these observations
 * @param uniform draws in (0, 1) by replication and index; index below 4 · observations
 * @param replications at least 1; 199 give p to some 0.02 near 0.1
 */
export function goodnessOfFit(
  fit: LifeFit,
  observations: readonly Observation[],
  uniform: (replication: number, index: number) => number,
  replications: number,
): Goodness {
  const distribution = toFit(fit.distribution);
  const life = compileLife(lifeOf(fit));
  const size = observations.length;
  const seen = distanceOf(curveOf(observations), life, size);
  const make = resampler(life, observations);
  const made: Distance[] = [];
  for (let replication = 0; replication < replications; replication += 1) {
    const log = make((index) => uniform(replication, index));
    if (!log.some(isEvent)) continue;
    const peak = searchPeak(distribution, log, fit.free);
    if (!peak.converged) continue;
    made.push(distanceOf(curveOf(log), compileLife(distribution.life(valuesOf(distribution, peak.at))), size));
  }
  const tested = (measure: (distance: Distance) => number): TestedDistance => {
    const value = measure(seen);
    const asFar = made.filter((one) => measure(one) >= value).length;
    return { value, pValue: (asFar + 1) / (made.length + 1) };
  };
  const averaged = !observations.some(isInterval);
  return {
    largest: tested((one) => one.largest),
    cramerVonMises: averaged ? tested((one) => one.cramerVonMises) : null,
    andersonDarling: averaged ? tested((one) => one.andersonDarling) : null,
    replications: made.length,
    failed: replications - made.length,
  };
}
