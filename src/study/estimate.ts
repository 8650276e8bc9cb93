import { meanInterval, type MeanInterval } from '../statistics/interval.js';
import type { Numbers } from '../statistics/numbers.js';
import { clopperPearson } from '../statistics/proportion.js';
import { LEVEL } from './differences.js';
import type { Estimate } from './results.js';

/** What is written of an interval. */
export function estimateIn({ mean, low, high }: Pick<MeanInterval, 'mean' | 'low' | 'high'>): Estimate {
  return { value: mean, low, high };
}

/** Mean of at least two values with its interval. */
export function estimateOf(values: Numbers, level = LEVEL): Estimate {
  return estimateIn(meanInterval(values, level));
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
 * A mean known from many replications, plus the mean change that something makes to it in some of them on the same luck: a
 * control variate, since what hardly touches a campaign hardly changes it.
 * @param changes at least two
 */
export function changedBy(known: KnownMean, changes: Numbers): Estimate & KnownMean {
  const { mean, halfWidth: ofChange } = meanInterval(changes, LEVEL);
  const value = known.value + mean;
  const halfWidth = Math.sqrt(ofChange * ofChange + known.halfWidth * known.halfWidth);
  return { value, halfWidth, low: value - halfWidth, high: value + halfWidth };
}
