import type { LoadedScenario } from '../../scenario/load.js';
import { recordOf, type StudyOptions } from '../about.js';
import { answerUnlessStopped, stoppedBefore, unlessStopped, warnedOf } from '../by-hand.js';
import { besideAt } from '../breakeven/beside.js';
import type { BreakEvenMeasure } from '../breakeven/results.js';
import { LEVEL, measureOf } from '../differences.js';
import { Pool } from '../pool.js';
import { alone } from '../work/alone.js';
import { Meter } from '../work/meter.js';
import { together, type Work } from '../work/work.js';
import { heldAtCentre } from '../vary/held.js';
import { inputsOf } from './inputs.js';
import { SENSITIVITY_FORMAT, type Sensitivity, type Swing } from './results.js';
import { screen } from './screen.js';
import { standing } from './standing.js';
import { endsOf, swingOf } from './swings.js';
import { sensitivityAnswer } from './words.js';

export interface SensitivityOptions extends StudyOptions {
  /** Names of two strategies. */
  readonly between: readonly [string, string];
  readonly measure: BreakEvenMeasure;
  /** Tries what has a source too. */
  readonly isAll: boolean;
}

/** What follows upon the ends of ranges. */
const BEHIND_ENDS = 'all places were known at which the verdict turns, and before all values were moved at once';

/** Which values decide between two strategies, one at a time and all at once. */
export function sensitivity(loaded: LoadedScenario, options: SensitivityOptions): Sensitivity {
  return alone(sensitivityWork(loaded, options));
}

/**
 * The same as work that others carry out. Stopped by hand, it says what is known by then of the values one at a time.
 * @throws Stopped where it was stopped by hand before all of them were at both ends
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
  const oneByOne = new Meter('one at a time', onProgress);
  const ends = yield* together(inputs.map((input) => endsOf(here, input, oneByOne)));
  const swings: Swing[] = [];
  for (const [number, input] of inputs.entries()) swings.push(yield* swingOf(here, input, ends[number], oneByOne));
  swings.sort((a, b) => b.most - a.most);
  const screened = yield* unlessStopped(screen(here, inputs, record.seed, new Meter('all at once', onProgress)));
  const { morris, campaigns } = screened ?? { morris: null, campaigns: 0 };
  const stopping = screened === null ? stoppedBefore(BEHIND_ENDS) : here.stopping;
  const { value, low, high } = here.difference;
  const second = value < 0 === (measure !== 'yield');
  const found = {
    between,
    measure,
    difference: { value, low, high },
    better: low > 0 || high < 0 ? between[second ? 1 : 0] : null,
    beside: besideAt(here.pair, here.replications, measure),
    isAll,
    swings,
    morris,
  };
  return {
    ...record,
    ...found,
    level: LEVEL,
    replications: here.replications,
    campaigns: pool.campaigns + campaigns,
    stopping,
    answer: answerUnlessStopped(sensitivityAnswer(found, loaded.currency), stopping),
    warnings: [...(options.warnings ?? []), ...heldAtCentre(loaded), ...warnedOf(stopping)],
  };
}
