import { recordOf, type StudyOptions } from '../../analysis/about.js';
import { uncertainIn } from '../../analysis/worth/drawn.js';
import { Columns } from '../../execution/columns.js';
import type { JobResult } from '../../execution/job.js';
import type { Measure } from '../../execution/measures.js';
import { Meter } from '../../execution/progress.js';
import { completed, type Work } from '../../execution/work.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { uniformTest } from '../../statistics/kolmogorov.js';
import { countOf, type Numbers } from '../../statistics/numbers.js';
import { OrderStatistics } from '../../statistics/order-statistics.js';
import { quantileOf } from '../../statistics/quantile.js';
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
 * Where finished campaigns lie in what the scenario predicts: each replication has values of its own for all that is uncertain or only
 * assumed. Where the scenario is right, the shares of the prediction that lie below what was found are uniform (A. P. Dawid, J. R. Stat.
 * Soc. A 147, 278, 1984), for counts with half of what equals it.
 */
export function* hindcastWork(loaded: LoadedScenario, options: HindcastOptions): Work<Hindcast> {
  const { campaigns, replications, onProgress } = options;
  const record = recordOf(HINDCAST_FORMAT, loaded, options);
  const names = [...new Set(campaigns.map(({ strategy }) => strategy))];
  const columns = names.map(() => new Columns());
  const experiment = {
    kind: 'drawn' as const,
    scenario: loaded,
    inputs: uncertainIn(loaded).map(({ path }) => path),
    perDraw: 1,
    parts: names.map((name) => ({ name, over: {} })),
  };
  const take = (result: JobResult) => {
    result.forEach(({ count, columns: more }, part) => {
      columns[part].append(count, Object.fromEntries(RECORDED.map((each) => [each, more[MEASURE_OF[each]]])));
    });
  };
  const job = { experiment, seed: record.seed, from: 1, to: replications, wants: {} };
  yield* completed(new Meter('replications', onProgress).over([{ job, take }]));
  const placed = campaigns.flatMap(({ campaign, strategy, found }) =>
    RECORDED.flatMap((measure): readonly Placed[] => {
      const value = found[measure];
      const predictions = columns[names.indexOf(strategy)].of(measure);
      if (value === undefined) return [];
      const [predicted, share] = [predictedBy(predictions), shareBelow(predictions, value)];
      return [{ campaign, strategy, measure, found: value, predicted, share }];
    }),
  );
  const calibration = RECORDED.flatMap((measure) => calibrationOf(measure, placed));
  return {
    ...record,
    replications,
    stopping: `${numberText(replications)} replications were asked for`,
    placed,
    calibration,
    answer: answerOf(placed, calibration),
    warnings: options.warnings ?? [],
  };
}

function predictedBy(values: Numbers): Predicted {
  const sample = new OrderStatistics(values);
  const at = (share: number) => quantileOf(sample, share);
  return { median: at(0.5), half: [at(0.25), at(0.75)], most: [at(0.025), at(0.975)] };
}

function shareBelow(values: Numbers, found: number): number {
  const below = countOf(values, (value) => value < found);
  const equal = countOf(values, (value) => value === found);
  return (below + equal / 2) / values.length;
}

function calibrationOf(measure: Recorded, all: readonly Placed[]): readonly Calibration[] {
  const placed = all.filter((each) => each.measure === measure);
  if (placed.length === 0) return [];
  const within = (of: (predicted: Predicted) => readonly [number, number]) =>
    placed.filter(({ found, predicted }) => found >= of(predicted)[0] && found <= of(predicted)[1]).length;
  return [
    {
      ...{ measure, campaigns: placed.length },
      inHalf: within(({ half }) => half),
      inMost: within(({ most }) => most),
      test: placed.length < FEWEST_TESTED ? null : uniformTest(placed.map(({ share }) => share)),
    },
  ];
}
