import type { TuneResult } from '../../src/studies/tune/results.js';
import { tune, type TuneRequest, tuneWork } from '../../src/studies/tune/tune.js';
import { readVaried } from '../../src/analysis/vary/varied.js';
import type { Work } from '../../src/execution/work.js';
import type { Reading } from '../../src/scenario/quantity.js';
import { loadedOf } from './run.js';

/** What a test asks of tuning; the rest is as on the command line. */
export interface Asked extends Partial<Omit<TuneRequest, 'varied'>> {
  /** PATH=RANGE, each. */
  readonly vary: readonly string[];
  readonly seed?: string;
}

/** Tunes the only, or the named, strategy of a scenario's text; throws where that cannot be. */
export function tuned(text: string, { vary, seed = 'tuned', ...asked }: Asked): TuneResult {
  const answer = tryToTune(text, { vary, seed, ...asked });
  if (typeof answer === 'string') throw new Error(answer);
  return answer;
}

/** The result, or why there is none. */
export function tryToTune(text: string, asked: Asked): TuneResult | string {
  const found = tune(...givenOf(text, asked));
  return found.ok ? found.value : found.message;
}

/** The same as work, for others to carry out or to stop. */
export function tuning(text: string, asked: Asked): Work<Reading<TuneResult>> {
  return tuneWork(...givenOf(text, asked));
}

function givenOf(text: string, { vary, seed = 'tuned', ...asked }: Asked): Parameters<typeof tune> {
  const loaded = loadedOf(text);
  const strategy = asked.strategy ?? loaded.strategies[0].name;
  const varied = vary.map((each) => {
    const reading = readVaried(loaded, each, strategy);
    if (!reading.ok) throw new Error(reading.message);
    return reading.value;
  });
  const usual = {
    goal: 'least-time',
    yieldAtLeast: null,
    hours: null,
    confidence: 0.95,
    zone: 0.01,
    draws: null,
  } as const;
  const request = { ...usual, maxCampaigns: 30_000, ...asked, strategy, varied };
  return [loaded, request, { seed, file: 'test.yaml', sha256: '', toolVersion: '0' }];
}
