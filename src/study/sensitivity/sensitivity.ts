import { LuckTable } from '../../chance/luck.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { recordOf, type StudyOptions } from '../about.js';
import { besideAt } from '../breakeven/beside.js';
import type { BreakEvenMeasure } from '../breakeven/results.js';
import { LEVEL, measureOf, timeMeasureOf } from '../differences.js';
import { pairIn } from '../pair.js';
import { Pool } from '../pool.js';
import { heldAtCentre } from '../vary/held.js';
import { inputsOf } from './inputs.js';
import { SENSITIVITY_FORMAT, type Sensitivity } from './results.js';
import { screen } from './screen.js';
import { standing } from './standing.js';
import { swingOf } from './swings.js';
import { sensitivityAnswer } from './words.js';

export interface SensitivityOptions extends StudyOptions {
  /** Names of two strategies. */
  readonly between: readonly [string, string];
  readonly measure: BreakEvenMeasure;
  /** Tries what has a source too. */
  readonly isAll: boolean;
}

/** Which values decide between two strategies, one at a time and all at once. */
export function sensitivity(loaded: LoadedScenario, options: SensitivityOptions): Sensitivity {
  const { between, measure, isAll } = options;
  const record = recordOf(SENSITIVITY_FORMAT, loaded, options);
  const table = new LuckTable(record.seed);
  const pool = new Pool(table);
  const time = timeMeasureOf(pairIn(loaded, between));
  const here = standing(loaded, between, measureOf(measure, time), pool, () => {
    options.onProgress?.({ phase: 'as they stand', done: pool.campaigns, of: pool.campaigns });
  });
  const inputs = inputsOf(loaded, isAll);
  const swings = inputs
    .map((input, number) =>
      swingOf(here, input, () => options.onProgress?.({ phase: 'one at a time', done: number + 1, of: inputs.length })),
    )
    .sort((a, b) => b.most - a.most);
  let screened = 0;
  const morris = screen(here, inputs, table, (done, of, campaigns) => {
    screened = campaigns;
    options.onProgress?.({ phase: 'all at once', done, of });
  });
  const { value, low, high } = here.difference;
  const second = value < 0 === (measure !== 'yield');
  const found = {
    between,
    measure,
    timeMeasure: time,
    difference: { value, low, high },
    better: low > 0 || high < 0 ? between[second ? 1 : 0] : null,
    beside: besideAt(here.pair, here.replications, measure, time),
    isAll,
    swings,
    morris,
  };
  return {
    ...record,
    ...found,
    level: LEVEL,
    replications: here.replications,
    campaigns: pool.campaigns + screened,
    stopping: here.stopping,
    answer: sensitivityAnswer(found, loaded.currency),
    warnings: [...(options.warnings ?? []), ...heldAtCentre(loaded)],
  };
}
