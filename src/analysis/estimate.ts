import studentQuantile from '@stdlib/stats-base-dists-t-quantile';
import { endingAt, meanInterval, type MeanInterval } from '../statistics/interval.js';
import { average, compensatedSum, type Numbers, squaredDeviations } from '../statistics/numbers.js';
import { clopperPearson } from '../statistics/proportion.js';
import { LEVEL } from './differences.js';
import type { Estimate } from '../statistics/estimate.js';
import { isShare } from './results.js';

/** What is written of an interval. */
export function estimateIn({ mean, low, high }: Pick<MeanInterval, 'mean' | 'low' | 'high'>): Estimate {
  return { value: mean, low, high };
}

/** Mean of at least two values with its interval. */
export function estimateOf(values: Numbers, level = LEVEL): Estimate {
  return estimateIn(meanInterval(values, level));
}

/** Mean of at least two shares, whose interval never leaves [0, 1]. */
export function shareOf(values: Numbers, level = LEVEL): Estimate {
  return endingAt(estimateOf(values, level), 0, 1);
}

/** Mean of a measure, by its name here or in a comparison. */
export function estimateOfMeasure(measure: string, values: Numbers): Estimate {
  return isShare(measure) ? shareOf(values) : estimateOf(values);
}

/** A chance, where something came in `count` of n replications. */
export function chanceOf(count: number, n: number, level = LEVEL): Estimate {
  return { value: count / n, ...clopperPearson(count, n, level) };
}

/** A mean that is known to a half-width. */
export interface KnownMean {
  readonly value: number;
  readonly halfWidth: number;
}

/**
 * A mean elsewhere, from a mean known here from many replications and from some of them run in both places with common random numbers: the
 * mean there, less what the mean of these replications is off here, times the slope of one on the other. A control variate with
 * its coefficient estimated (S. S. Lavenberg and P. D. Welch, Manage. Sci. 27, 322, 1981): where a place hardly touches a
 * campaign the slope is 1, and where it takes away what makes campaigns differ it is 0.
 * @param here one value a replication, at least two
 * @param there of the same replications
 * @param level of the interval, which `known` has too
 */
export function changedBy(known: KnownMean, here: Numbers, there: Numbers, level = LEVEL): Estimate & KnownMean {
  const n = here.length;
  const [centreHere, centreThere] = [average(here), average(there)];
  const spread = squaredDeviations(here, centreHere);
  // Where all are alike here, what is rare was not met, and is taken to be the same there.
  const isFitted = spread > 0 && n > 2;
  const slope = isFitted ? codeviations(here, centreHere, there, centreThere) / spread : 1;
  const rests = Float64Array.from({ length: n }, (_, i) => there[i] - slope * here[i]);
  const mean = compensatedSum(rests) / n;
  const freedom = n - (isFitted ? 2 : 1);
  const off = isFitted ? (centreHere - known.value) / Math.sqrt(spread) : 0;
  const error = Math.sqrt((squaredDeviations(rests, mean) / freedom) * (1 / n + off * off));
  const ofRest = studentQuantile((1 + level) / 2, freedom) * error;
  const value = slope * known.value + mean;
  const halfWidth = Math.sqrt(ofRest * ofRest + slope * slope * known.halfWidth * known.halfWidth);
  return { value, halfWidth, low: value - halfWidth, high: value + halfWidth };
}

function codeviations(a: Numbers, centreA: number, b: Numbers, centreB: number): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += (a[i] - centreA) * (b[i] - centreB);
  return sum;
}
