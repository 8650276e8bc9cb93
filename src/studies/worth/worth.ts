import { recordOf, type StudyOptions } from '../../analysis/about.js';
import { LEVEL } from '../../analysis/differences.js';
import { campaignsOnDraws, drawsOf, REPLICATIONS, uncertainIn } from '../../analysis/worth/drawn.js';
import { adviceOf, byTime, costText, SMALL, wrongText } from '../../analysis/worth/words.js';
import { worthIn } from '../../analysis/worth/worth.js';
import { Meter } from '../../execution/progress.js';
import type { Work } from '../../execution/work.js';
import { Failure } from '../../scenario/failure.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { WORTH_FORMAT, type WorthSummary } from './results.js';

export interface WorthOptions extends StudyOptions {
  /** Of what is uncertain; 2000 unless given. */
  readonly draws?: number;
}

export const DRAWS = 2000;

/** What it is worth to know more, value by value, before one chooses between the strategies of a scenario. */
export function* worthWork(loaded: LoadedScenario, options: WorthOptions): Work<WorthSummary> {
  const { draws = DRAWS, onProgress } = options;
  const record = recordOf(WORTH_FORMAT, loaded, options);
  if (loaded.strategies.length < 2)
    throw new Failure('there is one strategy only, so nothing to choose between; two are wanted');
  const meter = new Meter('draws', onProgress);
  const { seed } = record;
  const names = loaded.strategies.map(({ name }) => name);
  const inputs = uncertainIn(loaded);
  const size = { draws, replications: REPLICATIONS };
  const toDraw = { loaded, names, inputs, seed, size, kept: ['instrumentTime', 'cost'] };
  const campaigns = yield* campaignsOnDraws(toDraw, (tasks) => meter.over(tasks));
  const losses = campaigns.map((each) => ({ time: each.of('instrumentTime'), cost: each.of('cost') }));
  const found = worthIn(loaded, names, drawsOf(inputs, seed, size), losses, seed);
  const isSure = inputs.length === 0;
  const headline = isSure
    ? ['Nothing in this scenario is uncertain: every value has a source or is chosen.']
    : adviceOf(found, byTime(found, LEVEL));
  const findings = isSure ? [] : [costText(found.values, loaded.currency), wrongText(found.wrongNow)];
  return {
    ...record,
    confidence: { level: LEVEL },
    ...found,
    answer: { headline, remarks: [], findings, decided: found.perfect.hours.value < SMALL },
    stopping: `${draws} draws were asked for`,
    warnings: options.warnings ?? [],
  };
}
