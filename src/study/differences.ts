import { bonferroni, endingAt, type MeanInterval, pairedInterval } from '../statistics/interval.js';
import { average, type Numbers } from '../statistics/numbers.js';
import { relativeHalfWidth } from '../statistics/stopping.js';
import type { Collector } from './collector.js';
import type { Runnable } from './replicate.js';
import { type Difference, HEADLINE, type Headline, isShare, type Measure } from './results.js';

/** Confidence of every interval shown; differences are widened for their number. */
export const LEVEL = 0.95;

export type ComparedMeasure = Difference['measure'];
const ALSO_COMPARED: readonly ComparedMeasure[] = ['silentBadShare', 'cost'];
export const COMPARED: readonly ComparedMeasure[] = [...HEADLINE, ...ALSO_COMPARED];

export type TimeMeasure = 'totalTime' | 'instrumentTime';

/** Strategies are compared by instrument time where any of them has bookings, since calendar time goes in lumps of sessions. */
export function timeMeasureOf(strategies: readonly Runnable[]): TimeMeasure {
  return strategies.every(({ model }) => model.bookings.isAlways) ? 'totalTime' : 'instrumentTime';
}

/** The measure that a compared one is read from. */
export function measureOf(compared: ComparedMeasure | Headline, time: TimeMeasure): Measure {
  return compared === 'time' ? time : compared;
}

/** An interval of a difference in a measure, by its name here or in a comparison; shares differ by no more than one. */
export function differenceIn<Interval extends Pick<MeanInterval, 'low' | 'high'>>(
  measure: string,
  interval: Interval,
): Interval {
  return isShare(measure) ? endingAt(interval, -1, 1) : interval;
}

/** How many intervals are shown side by side: three headline measures for each strategy but the first. */
export function comparisons(strategies: number): number {
  return Math.max(1, (strategies - 1) * HEADLINE.length);
}

/** Paired differences of every strategy from the first, on the same luck. */
export function differencesOf(
  names: readonly string[],
  collectors: readonly Collector[],
  time: TimeMeasure,
): readonly Difference[] {
  const level = bonferroni(LEVEL, comparisons(names.length));
  const [first, ...others] = collectors;
  return others.flatMap((other, index) =>
    COMPARED.map((measure): Difference => {
      const from = first.values[measureOf(measure, time)];
      const to = other.values[measureOf(measure, time)];
      const { mean, low, high } = differenceIn(measure, pairedInterval(to, from, level));
      return {
        strategy: names[index + 1],
        measure,
        estimate: { value: mean, low, high },
        relativePrecision: precision(to, from),
        verdict: low > 0 ? 'more' : high < 0 ? 'less' : 'not told apart',
      };
    }),
  );
}

/**
 * Whether every difference in time, yield and tips is known well enough: its 95 % half-width (before Bonferroni) is at most
 * `target` of the first strategy's mean. A strategy alone is held to its own means.
 */
export function isPreciseEnough(collectors: readonly Collector[], time: TimeMeasure, target: number): boolean {
  const [first, ...others] = collectors;
  return HEADLINE.every((headline) => {
    const measure = measureOf(headline, time);
    const from = first.values[measure];
    const compared =
      others.length === 0 ? [new Float64Array(from.length)] : others.map((other) => other.values[measure]);
    return compared.every((values) => (precision(values, from) ?? Infinity) <= target);
  });
}

/** Half-width before Bonferroni as a share of the first strategy's mean; zero variance is 0; null where that mean is 0. */
function precision(values: Numbers, from: Numbers): number | null {
  const { halfWidth } = pairedInterval(values, from, LEVEL);
  const reference = average(from);
  if (halfWidth > 0 && reference === 0) return null;
  return relativeHalfWidth(halfWidth, reference);
}
