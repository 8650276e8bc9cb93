import { ACTIVITY_NUMBER, perActivity } from '../campaign/activities.js';
import { SECOND } from '../kernel/clock.js';
import type { CampaignModel } from '../campaign/model.js';
import { meanInterval } from '../statistics/interval.js';
import { countOf, type Numbers } from '../statistics/numbers.js';
import { OrderStatistics, roomFor } from '../statistics/order-statistics.js';
import { quantileInterval } from '../statistics/quantile.js';
import type { Collector } from './collector.js';
import { LEVEL, measureOf, type TimeMeasure } from './differences.js';
import { chanceOf, estimateIn, estimateOf } from './estimate.js';
import type { Runnable } from './replicate.js';
import {
  type FinishPoint,
  type ImageSummary,
  type MeasureSummary,
  perMeasure,
  type StrategySummary,
} from './results.js';

const QUANTILES = [0.1, 0.5, 0.9];
const MOST_FINISH_POINTS = 200;
const MOST_SESSIONS = 60;
const MOST_CLOUD_POINTS = 400;

/** Everything that is said of one strategy. */
export function strategySummary({ name, model }: Runnable, collected: Collector, time: TimeMeasure): StrategySummary {
  const n = collected.count;
  const room = roomFor(n);
  const finished = collected.finishedAt.filter((moment) => !Number.isNaN(moment)).sort();
  const { split } = collected;
  const cut = (column: string) => estimateOf(collected.column(column));
  return {
    name,
    workflow: model.workflow,
    pace: model.settings.pace,
    preparesOnBench: model.workflow === 'hop' && model.settings.workflows.hop.prepareAt === 'bench',
    measures: perMeasure((measure) => summaryOf(collected.values[measure], room)),
    split: perActivity((activity) => split[ACTIVITY_NUMBER[activity]] / n),
    finishes: chanceOf(finished.length, n),
    finishing: finishing(finished, n),
    finishedBySession: finishedBySession(model, finished, n),
    withinAllocation:
      model.allocationEnd === null
        ? null
        : chanceOf(
            countOf(collected.column('cutFinished'), (isFinished) => isFinished === 1),
            n,
          ),
    cut:
      model.allocationEnd === null
        ? null
        : {
            yield: cut('cutYield'),
            silentBadShare: cut('cutSilentBadShare'),
            missing: cut('cutMissing'),
            tips: cut('cutTips'),
          },
    tipCounts: tipCounts(collected.values.tips),
    spoiledBy: [...collected.sums.spoiledBy].map(([cause, tips]) => ({ cause, tips: tips / n })).sort(byTips),
    wentBecause: [...collected.sums.wentBecause].map(([reason, tips]) => ({ reason, tips: tips / n })).sort(byTips),
    cloud: cloudOf(collected, time),
    images: imagesOf(model, collected, n),
  };
}

/** Most first; the order of equal ones must not depend on which came up first. */
function byTips(a: { readonly tips: number; readonly cause?: string; readonly reason?: string }, b: typeof a): number {
  const nameOf = (row: typeof a) => row.cause ?? row.reason ?? '';
  return b.tips - a.tips || (nameOf(a) < nameOf(b) ? -1 : 1);
}

function summaryOf(values: Numbers, room: number[]): MeasureSummary {
  const interval = meanInterval(values, LEVEL);
  const sample = new OrderStatistics(values, room);
  return {
    ...estimateIn(interval),
    standardDeviation: interval.standardDeviation,
    quantiles: QUANTILES.map((probability) => ({ probability, ...quantileInterval(sample, probability, LEVEL) })),
  };
}

/** The cumulative chance at evenly chosen ranks of the sorted finishing times. */
function finishing(finished: Numbers, n: number): readonly FinishPoint[] {
  const points = Math.min(MOST_FINISH_POINTS, finished.length);
  return Array.from({ length: points }, (_, i) => {
    const rank = points === finished.length ? i + 1 : Math.floor(((i + 1) * finished.length) / points);
    const time = finished[rank - 1];
    // Ties finish together: the chance at a time counts all of them.
    const by = countUpTo(finished, time);
    return { time, ...chanceOf(by, n) };
  }).filter((point, i, all) => i === 0 || point.time > all[i - 1].time);
}

/** How many of the ascending values are at most `limit`. */
function countUpTo(sorted: Numbers, limit: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (sorted[middle] <= limit) low = middle + 1;
    else high = middle;
  }
  return low;
}

function finishedBySession(
  model: CampaignModel,
  finished: Float64Array,
  n: number,
): StrategySummary['finishedBySession'] {
  const { bookings, start } = model;
  const last = finished.at(-1);
  if (bookings.isAlways || last === undefined) return [];
  const points: (FinishPoint & { session: number })[] = [];
  for (let session = 1; session <= MOST_SESSIONS; session += 1) {
    const time = (bookings.sessionEnd(start, session) - start) / SECOND;
    points.push({ session, time, ...chanceOf(countUpTo(finished, time), n) });
    if (time >= last) break;
  }
  return points;
}

function tipCounts(values: Float64Array): StrategySummary['tipCounts'] {
  const counts = new Map<number, number>();
  for (const tips of values) counts.set(tips, (counts.get(tips) ?? 0) + 1);
  return [...counts].sort(([a], [b]) => a - b).map(([tips, count]) => ({ tips, share: count / values.length }));
}

function cloudOf(collected: Collector, time: TimeMeasure): StrategySummary['cloud'] {
  const { values, count } = collected;
  const points = Math.min(MOST_CLOUD_POINTS, count);
  const measure = measureOf('time', time);
  return Array.from({ length: points }, (_, i) => {
    const index = Math.floor((i * count) / points);
    return {
      replication: index + 1,
      time: values[measure][index],
      yield: values.yield[index],
      tips: values.tips[index],
    };
  });
}

function imagesOf(model: CampaignModel, collected: Collector, n: number): readonly ImageSummary[] {
  return model.images.map(({ number, region, pass }) => {
    const sums = collected.sums.image(number);
    return {
      image: number + 1,
      region: region + 1,
      pass: pass.demand.pass.name,
      quality: sums.quality / n,
      good: sums.good / n,
      silentBad: sums.silentBad / n,
      givenUp: sums.givenUp / n,
      missing: sums.missing / n,
      takes: sums.takes / n,
    };
  });
}
