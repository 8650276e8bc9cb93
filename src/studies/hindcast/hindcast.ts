import { recordOf, type StudyOptions } from '../../analysis/about.js';
import { uncertainIn } from '../../analysis/worth/drawn.js';
import { Columns } from '../../execution/columns.js';
import type { JobResult } from '../../execution/job.js';
import type { Measure } from '../../execution/measures.js';
import { Meter } from '../../execution/progress.js';
import { completed, type Work } from '../../execution/work.js';
import type { LoadedScenario } from '../../scenario/load.js';
import type { Numbers } from '../../statistics/numbers.js';
import { OrderStatistics } from '../../statistics/order-statistics.js';
import { quantileOf } from '../../statistics/quantile.js';
import { uniformDistance } from '../../statistics/uniform.js';
import type { Finished } from './read-finished.js';
import {
  type Calibration,
  HINDCAST_FORMAT,
  type Hindcast,
  type Placed,
  type Predicted,
  RECORDED,
  type Recorded,
} from './results.js';
import { answerOf } from './words.js';
import { numberText } from '../../wording/numbers.js';

export interface HindcastOptions extends StudyOptions {
  readonly campaigns: readonly Finished[];
  readonly replications: number;
}

const MEASURE_OF: Readonly<Record<Recorded, Measure>> = {
  time: 'instrumentTime',
  operatorTime: 'operatorTime',
  tips: 'tips',
  attempts: 'takes',
  yield: 'apparentYield',
};

/** Fewer shares say nothing of their distribution. */
const FEWEST_TESTED = 5;

/**
 * Where finished campaigns lie in what the scenario predicts: each draw has values of its own for all that is uncertain or only assumed.
 * Where the scenario is right, the shares of the prediction that lie below what was found are uniform (A. P. Dawid, J. R. Stat. Soc. A
 * 147, 278, 1984), for counts with half of what equals it; but campaigns of one laboratory share what nobody knows, and so lie together.
 * Their distance from uniform shares is therefore held beside that of as many campaigns of each draw.
 */
export function* hindcastWork(loaded: LoadedScenario, options: HindcastOptions): Work<Hindcast> {
  const { campaigns, replications, onProgress } = options;
  const record = recordOf(HINDCAST_FORMAT, loaded, options);
  const names = [...new Set(campaigns.map(({ strategy }) => strategy))];
  const columns = names.map(() => new Columns());
  const perDraw = campaigns.length < FEWEST_TESTED ? 1 : campaigns.length;
  const experiment = {
    kind: 'drawn' as const,
    scenario: loaded,
    inputs: uncertainIn(loaded).map(({ path }) => path),
    perDraw,
    parts: names.map((name) => ({ name, over: {} })),
  };
  const take = (result: JobResult) => {
    result.forEach(({ count, columns: more }, part) => {
      columns[part].append(count, Object.fromEntries(RECORDED.map((each) => [each, more[MEASURE_OF[each]]])));
    });
  };
  const job = { experiment, seed: record.seed, from: 1, to: replications * perDraw, wants: {} };
  yield* completed(new Meter('replications', onProgress).over([{ job, take }]));
  const predictionsOf = new Map(
    RECORDED.map((measure) => [measure, columns.map((each) => new Predictions(each.of(measure)))]),
  );
  const placed = campaigns.flatMap(({ campaign, strategy, found }) =>
    RECORDED.flatMap((measure): readonly Placed[] => {
      const value = found[measure];
      const predictions = predictionsOf.get(measure)?.at(names.indexOf(strategy));
      if (value === undefined || predictions === undefined) return [];
      const { predicted } = predictions;
      return [{ campaign, strategy, measure, found: value, predicted, share: predictions.shareBelow(value) }];
    }),
  );
  const calibration = RECORDED.flatMap((measure) => {
    const ofIt = placed.filter((each) => each.measure === measure);
    const predictions = predictionsOf.get(measure) ?? [];
    return calibrationOf(
      measure,
      ofIt,
      ofIt.map(({ strategy }) => predictions[names.indexOf(strategy)]),
      perDraw,
    );
  });
  return {
    ...record,
    replications,
    stopping: `${numberText(replications)} draws were asked for`,
    placed,
    calibration,
    answer: answerOf(placed, calibration),
    warnings: options.warnings ?? [],
  };
}

/** What is predicted of one measure of one strategy, draw by draw. */
class Predictions {
  readonly predicted: Predicted;
  private readonly sorted: Float64Array;

  constructor(readonly values: Numbers) {
    const sample = new OrderStatistics(values);
    const at = (share: number) => quantileOf(sample, share);
    this.predicted = { median: at(0.5), half: [at(0.25), at(0.75)], most: [at(0.025), at(0.975)] };
    this.sorted = Float64Array.from(values).sort();
  }

  shareBelow(value: number): number {
    return (this.countTo((each) => each < value) + this.countTo((each) => each <= value)) / (2 * this.sorted.length);
  }

  /** How many come first of which that is so. */
  private countTo(isSo: (each: number) => boolean): number {
    let [low, high] = [0, this.sorted.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (isSo(this.sorted[middle])) low = middle + 1;
      else high = middle;
    }
    return low;
  }
}

function calibrationOf(
  measure: Recorded,
  placed: readonly Placed[],
  predictions: readonly Predictions[],
  perDraw: number,
): readonly Calibration[] {
  if (placed.length === 0) return [];
  const within = (of: (predicted: Predicted) => readonly [number, number]) =>
    placed.filter(({ found, predicted }) => found >= of(predicted)[0] && found <= of(predicted)[1]).length;
  return [
    {
      ...{ measure, campaigns: placed.length },
      inHalf: within(({ half }) => half),
      inMost: within(({ most }) => most),
      test: placed.length < FEWEST_TESTED ? null : testOf(placed, predictions, perDraw),
    },
  ];
}

/** How far the campaigns lie from uniform shares, and in which share of all draws, this one counted in, as many lie as far. */
function testOf(placed: readonly Placed[], predictions: readonly Predictions[], perDraw: number): Calibration['test'] {
  const distance = uniformDistance(placed.map(({ share }) => share));
  const draws = Math.floor(Math.min(...predictions.map(({ values }) => values.length)) / perDraw);
  let [asFar, draw] = [1, 0];
  for (; draw < draws; draw += 1) {
    const first = draw * perDraw;
    const shares = predictions.map((each, place) => each.shareBelow(each.values[first + place]));
    if (uniformDistance(shares) >= distance) asFar += 1;
  }
  return { distance, pValue: asFar / (draws + 1) };
}
