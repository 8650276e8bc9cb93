import { bonferroni, endingAt, type MeanInterval, pairedInterval } from '../statistics/interval.js';
import { average, countOf, less, type Numbers } from '../statistics/numbers.js';
import { relativeHalfWidth } from '../statistics/stopping.js';
import { pairedProportions } from '../statistics/proportion.js';
import type { Campaigns, Collector } from '../execution/collector.js';
import { type Interest, smallestOf } from './interest.js';
import { COMPARED, type ComparedMeasure, type Completion, COMPLETIONS, HEADLINE } from './compared-measures.js';
import type { Estimate } from '../statistics/estimate.js';
import type { Measure } from '../execution/measures.js';
import { type Difference, isShare } from './results.js';

/** Confidence of every interval shown; differences are widened for their number. */
export const LEVEL = 0.95;

/** The measure that a compared one is read from. */
export function measureOf(compared: ComparedMeasure): Measure {
  return compared === 'time' ? 'instrumentTime' : compared;
}

/** An interval of a difference in a measure, by its name here or in a comparison; shares differ by no more than one. */
export function differenceIn<Interval extends Pick<MeanInterval, 'low' | 'high'>>(
  measure: string,
  interval: Interval,
): Interval {
  return isShare(measure) ? endingAt(interval, -1, 1) : interval;
}

/** Whether it is a chance to complete, which each campaign either does or does not. */
export function isCompletion(measure: Difference['measure']): measure is Completion {
  return COMPLETIONS.some((completion) => completion === measure);
}

/** What a compared measure is in each campaign; of a completion 1 where it came and 0 where it did not. */
export function valuesOf(
  campaigns: Pick<Campaigns, 'values' | 'finishedAt' | 'column'>,
  measure: Difference['measure'],
): Float64Array {
  if (measure === 'withinAllocation') return campaigns.column('cutFinished');
  if (measure === 'finishes') return campaigns.finishedAt.map((moment) => (Number.isNaN(moment) ? 0 : 1));
  return campaigns.values[measureOf(measure)];
}

/** How many intervals hold together: one for each measure that gets a verdict and each strategy but the first. */
export function comparisons(strategies: number): number {
  return Math.max(1, (strategies - 1) * COMPARED.length);
}

/** What an interval says of the sign of a difference. */
export function verdictIn({ low, high }: Pick<Estimate, 'low' | 'high'>): Difference['verdict'] {
  return low > 0 ? 'more' : high < 0 ? 'less' : 'no clear difference';
}

/** Paired differences of every strategy from the first, with common random numbers. */
export function differencesOf(
  names: readonly string[],
  collectors: readonly Collector[],
  interest: Interest,
): readonly Difference[] {
  const level = bonferroni(LEVEL, comparisons(names.length));
  const [first, ...others] = collectors;
  return others.flatMap((other, index) =>
    [...COMPLETIONS, ...COMPARED].flatMap((measure): readonly Difference[] => {
      const from = valuesOf(first, measure);
      const to = valuesOf(other, measure);
      // Without an allocation nobody asks who completes within it.
      if (from.length === 0) return [];
      const { mean, ...paired } = differenceIn(measure, pairedInterval(to, from, level));
      const { low, high } = isCompletion(measure) ? chanceInterval(to, from, level) : paired;
      return [
        {
          strategy: names[index + 1],
          measure,
          estimate: { value: mean, low, high },
          relativePrecision: precision(to, from),
          smallest: smallestOf(measure, interest, average(from)),
          verdict: verdictIn({ low, high }),
        },
      ];
    }),
  );
}

/** Interval of the difference between two chances, from what came (1) or did not (0) in each replication of both. */
function chanceInterval(to: Numbers, from: Numbers, level: number): Pick<Estimate, 'low' | 'high'> {
  const changes = less(to, from);
  const up = countOf(changes, (change) => change > 0);
  const down = countOf(changes, (change) => change < 0);
  return pairedProportions(up, down, changes.length, level);
}

/**
 * Whether every difference in time, yield and tips is known well enough: its 95 % half-width (before Bonferroni) is at most
 * `target` of the first strategy's mean. A strategy alone is held to its own means.
 */
export function isPreciseEnough(collectors: readonly Collector[], target: number): boolean {
  const [first, ...others] = collectors;
  return HEADLINE.every((headline) => {
    const measure = measureOf(headline);
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
