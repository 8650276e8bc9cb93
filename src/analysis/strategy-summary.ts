import { ACTIVITY_NUMBER, perActivity } from '../campaign/activities.js';
import type { CampaignModel } from '../campaign/model.js';
import { meanInterval } from '../statistics/interval.js';
import type { Numbers } from '../statistics/numbers.js';
import { OrderStatistics } from '../statistics/order-statistics.js';
import { quantileInterval } from '../statistics/quantile.js';
import type { Collector } from '../execution/collector.js';
import { LEVEL } from './differences.js';
import { allocatedTime, timesToComplete } from './complete.js';
import { estimateOf, estimateOfMeasure, shareOf } from './estimate.js';
import { Finishing } from './finishing.js';
import { leadTimeOf } from './lead-time.js';
import type { Runnable } from '../execution/replicate.js';
import { type Measure, perMeasure } from '../execution/measures.js';
import type { ImageDriftSummary, ImageSummary, MeasureSummary, StrategySummary } from './results.js';
import type { ImageSum } from '../execution/batch.js';

const QUANTILES = [0.1, 0.5, 0.9];
const MOST_CLOUD_POINTS = 400;

/** Everything that is said of one strategy. */
export function strategySummary({ name, model }: Runnable, collected: Collector): StrategySummary {
  const n = collected.count;
  const finishing = new Finishing(timesToComplete(collected), model);
  const allocated = allocatedTime(model);
  const { split } = collected;
  return {
    name,
    workflow: model.workflow,
    pace: model.settings.pace,
    preparesOnBench: model.workflow === 'hop' && model.settings.workflows.hop.prepareAt === 'bench',
    leadTime: leadTimeOf(model, collected.values.benchTime),
    measures: perMeasure((measure) => summaryOf(measure, collected.values[measure])),
    split: perActivity((activity) => split[ACTIVITY_NUMBER[activity]] / n),
    finishes: finishing.chance,
    finishing: finishing.curve,
    finishedBySession: finishing.bySession,
    withinAllocation: allocated === null ? null : finishing.within(allocated),
    cut:
      allocated === null
        ? null
        : {
            yield: shareOf(collected.column('cutYield')),
            undetectedBadShare: shareOf(collected.column('cutSilentBadShare')),
            missing: estimateOf(collected.column('cutMissing')),
            tips: estimateOf(collected.column('cutTips')),
          },
    tipCounts: tipCounts(collected.values.tips),
    spoiledBy: [...collected.sums.spoiledBy].map(([cause, tips]) => ({ cause, tips: tips / n })).sort(byTips),
    wentBecause: [...collected.sums.wentBecause].map(([reason, tips]) => ({ reason, tips: tips / n })).sort(byTips),
    cloud: cloudOf(collected),
    ...driftOf(model, collected, n),
    images: imagesOf(model, collected, n),
  };
}

/** Most first; the order of equal ones must not depend on which came up first. */
function byTips(a: { readonly tips: number; readonly cause?: string; readonly reason?: string }, b: typeof a): number {
  const nameOf = (row: typeof a) => row.cause ?? row.reason ?? '';
  return b.tips - a.tips || (nameOf(a) < nameOf(b) ? -1 : 1);
}

function summaryOf(measure: Measure, values: Numbers): MeasureSummary {
  const sample = new OrderStatistics(values);
  return {
    ...estimateOfMeasure(measure, values),
    standardDeviation: meanInterval(values, LEVEL).standardDeviation,
    quantiles: QUANTILES.map((probability) => ({ probability, ...quantileInterval(sample, probability, LEVEL) })),
  };
}

function tipCounts(values: Float64Array): StrategySummary['tipCounts'] {
  const counts = new Float64Array(values.reduce((most, tips) => Math.max(most, tips), 0) + 1);
  for (const tips of values) counts[tips] += 1;
  return Array.from(counts, (count, tips) => ({ tips, share: count / values.length })).filter(({ share }) => share > 0);
}

function cloudOf(collected: Collector): StrategySummary['cloud'] {
  const { values, count } = collected;
  const points = Math.min(MOST_CLOUD_POINTS, count);
  return Array.from({ length: points }, (_, i) => {
    const index = Math.floor((i * count) / points);
    return {
      replication: index + 1,
      time: values.instrumentTime[index],
      yield: values.yield[index],
      tips: values.tips[index],
    };
  });
}

function imagesOf(model: CampaignModel, collected: Collector, n: number): readonly ImageSummary[] {
  return model.images.map(({ number, sample, region, pass }) => {
    const sums = collected.sums.image(number);
    return {
      image: number + 1,
      sample: model.samples[sample].name,
      region: region + 1,
      pass: pass.demand.pass.name,
      quality: sums.quality / n,
      good: sums.good / n,
      undetectedBad: sums.undetectedBad / n,
      givenUp: sums.givenUp / n,
      missing: sums.missing / n,
      takes: sums.takes / n,
      ...(model.drift === null ? {} : { drift: imageDrift(sums, n) }),
    };
  });
}

function imageDrift(sums: Readonly<Record<ImageSum, number>>, n: number): ImageDriftSummary {
  const kept = sums.good + sums.undetectedBad;
  return {
    factor: kept === 0 ? null : sums.driftQuality / kept,
    badScans: { byDrift: sums.badByDrift / n, otherwise: sums.badOtherwise / n },
  };
}

/** Bad scans of all images, where something drifts. */
function driftOf(model: CampaignModel, collected: Collector, n: number): Pick<StrategySummary, 'badScans'> {
  if (model.drift === null) return {};
  let [byDrift, otherwise] = [0, 0];
  for (const { number } of model.images) {
    const sums = collected.sums.image(number);
    byDrift += sums.badByDrift;
    otherwise += sums.badOtherwise;
  }
  return { badScans: { byDrift: byDrift / n, otherwise: otherwise / n } };
}
