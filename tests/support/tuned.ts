import { loadScenario } from '../../src/scenario/load.js';
import type { TuneResult } from '../../src/study/tune/results.js';
import { tune, type TuneRequest, tuneWork } from '../../src/study/tune/tune.js';
import { readVaried } from '../../src/study/vary/varied.js';
import type { Work } from '../../src/study/work/work.js';
import type { Reading } from '../../src/scenario/quantity.js';

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
  const loaded = loadScenario(text);
  if (!loaded.ok) throw new Error(loaded.faults.map(({ path, message }) => `${path}: ${message}`).join('\n'));
  const strategy = asked.strategy ?? loaded.scenario.strategies[0].name;
  const varied = vary.map((each) => {
    const reading = readVaried(loaded.scenario, each, strategy);
    if (!reading.ok) throw new Error(reading.message);
    return reading.value;
  });
  const usual = { goal: 'least-time', yieldAtLeast: null, hours: null, confidence: 0.95, zone: 0.01 } as const;
  const request = { ...usual, maxCampaigns: 30_000, ...asked, strategy, varied };
  return [loaded.scenario, request, { seed, file: 'test.yaml', sha256: '', toolVersion: '0' }];
}
