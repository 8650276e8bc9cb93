import type { LuckTable } from '../../chance/luck.js';
import { average, countOf } from '../../statistics/numbers.js';
import { OrderStatistics } from '../../statistics/order-statistics.js';
import { quantileOf } from '../../statistics/quantile.js';
import type { Collector } from '../../execution/collector.js';
import { measureOf } from '../../analysis/differences.js';
import type { Runnable } from '../../execution/replicate.js';
import { HEADLINE } from '../../analysis/compared-measures.js';
import type { ShownReplication } from '../../analysis/results.js';
import { timelineOf } from '../../analysis/trace.js';

/**
 * The replications shown, each for all strategies alike: the typical one, which is least in its largest standardised
 * distance of (time, yield, tips) from their medians over all strategies, and the one nearest the 90th percentile of time.
 */
export function shownReplications(
  strategies: readonly Runnable[],
  collectors: readonly Collector[],
  table: LuckTable,
): readonly ShownReplication[] {
  const headline = HEADLINE.map((measure) => measureOf(measure));
  const typical = nearest(
    collectors.flatMap(({ values }) => headline.map((measure) => distances(values[measure], 0.5))),
  );
  const late = nearest(collectors.map(({ values }) => distances(values.instrumentTime, 0.9)));
  const chosen = [
    { index: typical, label: 'typical' },
    ...(late === typical ? [] : [{ index: late, label: 'near the 90th percentile of time' }]),
  ];
  return chosen.map(({ index, label }) => ({
    replication: index + 1,
    label,
    percentiles: strategies.map(({ name }, i) => ({
      strategy: name,
      time: percentile(collectors[i].values.instrumentTime, index),
      yield: percentile(collectors[i].values.yield, index),
      tips: percentile(collectors[i].values.tips, index),
    })),
    timelines: strategies.map((strategy) => timelineOf(strategy, table, index + 1)),
  }));
}

/** Standardised distance of each value from a quantile; 0 everywhere where all are equal. */
function distances(values: Float64Array, probability: number): Float64Array {
  const centre = quantileOf(new OrderStatistics(values), probability);
  const mean = average(values);
  const variance = average(values.map((value) => (value - mean) * (value - mean)));
  return values.map((value) => (variance > 0 ? Math.abs(value - centre) / Math.sqrt(variance) : 0));
}

/** The replication whose largest distance is least; the lowest number on ties. */
function nearest(distancesOf: readonly Float64Array[]): number {
  let best = 0;
  let least = Infinity;
  for (let index = 0; index < distancesOf[0].length; index += 1) {
    const largest = distancesOf.reduce((most, distance) => Math.max(most, distance[index]), 0);
    if (largest < least) {
      least = largest;
      best = index;
    }
  }
  return best;
}

/** Per cent of replications below, half of those that are equal counted. */
function percentile(values: Float64Array, index: number): number {
  const below = countOf(values, (value) => value < values[index]);
  const equal = countOf(values, (value) => value === values[index]);
  return (100 * (below + equal / 2)) / values.length;
}
