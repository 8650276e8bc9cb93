import type { LoadedScenario } from '../../scenario/load.js';
import { recordOf, type StudyOptions } from '../../analysis/about.js';
import { answerUnlessStopped } from '../../analysis/answer.js';
import { stoppedBefore, unlessStopped, warnedOf } from '../../analysis/interrupted.js';
import { besideAt } from '../../analysis/beside.js';
import type { PairMeasure } from '../../analysis/compared-measures.js';
import { LEVEL, measureOf } from '../../analysis/differences.js';
import { matters, smallestOf } from '../../analysis/interest.js';
import { average } from '../../statistics/numbers.js';
import { Pool } from '../../execution/pool.js';
import { runInProcess } from '../../execution/in-process.js';
import { Meter } from '../../execution/progress.js';
import { together, type Work } from '../../execution/work.js';
import { heldAtCentre } from '../../analysis/vary/held.js';
import { allAtOnce } from './at-once.js';
import { inputsOf } from './inputs.js';
import { SENSITIVITY_FORMAT, type Sensitivity, type Swing } from './results.js';
import { standing } from './standing.js';
import { endsOf, fewestAt, swingOf } from './swings.js';
import { sensitivityAnswer } from './words.js';

export interface SensitivityOptions extends StudyOptions {
  /** Names of two strategies. */
  readonly between: readonly [string, string];
  readonly measure: PairMeasure;
  /** Tries what has a source too. */
  readonly isAll: boolean;
}

/** What follows upon the ends of ranges. */
const BEHIND_ENDS = 'all places were known at which the verdict reverses, and before all values were drawn at once';

/** Which values decide between two strategies, one at a time and all at once. */
export function sensitivity(loaded: LoadedScenario, options: SensitivityOptions): Sensitivity {
  return runInProcess(sensitivityWork(loaded, options));
}

/**
 * The same as work that others carry out. Stopped by hand, it says what is known by then of the values one at a time.
 * @throws Stopped where it was interrupted before all of them were at both ends
 */
export function* sensitivityWork(loaded: LoadedScenario, options: SensitivityOptions): Work<Sensitivity> {
  const { between, measure, isAll } = options;
  const record = recordOf(SENSITIVITY_FORMAT, loaded, options);
  const { onProgress } = options;
  const pool = new Pool(record.seed);
  const here = yield* standing(loaded, between, measureOf(measure), pool, () => {
    onProgress?.({ phase: 'as they stand', done: pool.campaigns, of: pool.campaigns });
  });
  const inputs = inputsOf(loaded, isAll);
  const oneByOne = new Meter('one at a time', onProgress, inputs.length * fewestAt(here));
  const ends = yield* together(inputs.map((input) => endsOf(here, input, oneByOne)));
  const swings: Swing[] = [];
  for (const [number, input] of inputs.entries()) swings.push(yield* swingOf(here, input, ends[number], oneByOne));
  swings.sort((a, b) => b.most - a.most);
  const drawing = allAtOnce(here, swings, isAll, record.seed, new Meter('all at once', onProgress));
  const drawn = yield* unlessStopped(drawing);
  const { atOnce, campaigns } = drawn ?? { atOnce: null, campaigns: 0 };
  const stopping = drawn === null ? stoppedBefore(BEHIND_ENDS) : here.stopping;
  const { value, low, high } = here.difference;
  const second = value < 0 === (measure !== 'yield');
  const estimate = { value, low, high };
  const smallest = smallestOf(measure, loaded.base.smallestDifference, average(here.pair.first.values[here.measure]));
  const found = {
    between,
    measure,
    difference: estimate,
    smallest,
    better: matters({ estimate, smallest }) ? between[second ? 1 : 0] : null,
    beside: besideAt(here.pair, here.replications, measure),
    isAll,
    swings,
    atOnce,
    level: LEVEL,
  };
  return {
    ...record,
    ...found,
    replications: here.replications,
    campaigns: pool.campaigns + campaigns,
    stopping,
    answer: answerUnlessStopped(sensitivityAnswer(found, loaded.currency), stopping),
    warnings: [...(options.warnings ?? []), ...heldAtCentre(loaded), ...warnedOf(stopping)],
  };
}
