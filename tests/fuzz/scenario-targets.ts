import fc from 'fast-check';
import { stringify } from 'yaml';
import { runCampaign } from '../../src/campaign/campaign.js';
import { compileModel } from '../../src/campaign/model.js';
import { LuckTable } from '../../src/chance/luck.js';
import { imagesCsv } from '../../src/report/csv.js';
import { summaryJson } from '../../src/report/json.js';
import { previewText } from '../../src/report/preview.js';
import { terminalText } from '../../src/studies/compare/terminal.js';
import { type Fault, loadScenario } from '../../src/scenario/load.js';
import { compare } from '../../src/studies/compare/compare.js';
import { previewScenario } from '../../src/analysis/preview.js';
import { wholeText } from '../support/report-texts.js';
import { breaksIn, type Broken } from './breaks.js';
import { brokenLaws, strayWords, unspeakable } from './laws.js';
import { scenarios } from './scenarios.js';
import { spoiledTexts, textsIn } from './spoiled.js';
import { BROKEN, BYTES, DATA, TEXT } from './corpus.js';
import type { Target } from './target.js';
import type { Data } from './written.js';

const REPLICATIONS = 2;

function fail(text: string, what: readonly string[]): void {
  if (what.length > 0) throw new Error(`${what.join('; ')}\n${text}`);
}

/** Runs all strategies; gives what became of the scenario. */
function play(text: string): string {
  const loaded = loadScenario(text);
  if (!loaded.ok) {
    checkFaults(text, loaded.faults);
    return 'refused';
  }
  const { base, strategies } = loaded.scenario;
  const luck = new LuckTable(base.seed);
  let finished = true;
  for (const { workflow, settings } of strategies) {
    const model = compileModel(workflow, settings);
    for (let replication = 0; replication < REPLICATIONS; replication += 1) {
      const outcome = runCampaign(model, luck.replication(replication));
      fail(text, brokenLaws(model, outcome));
      finished &&= outcome.isFinished;
    }
  }
  return finished ? 'finished' : 'not finished';
}

/** Texts of a scenario that may hold any word themselves. */
function ownTexts({ title, about, seed }: Data): readonly string[] {
  return [title, about, seed]
    .filter((text) => typeof text === 'string')
    .map((text) => text.replace(/\s+/gu, ' ').trim());
}

/** Compares as the command line does, and looks through all that it would say. */
function study(scenario: Data): string {
  const text = stringify(scenario);
  const loaded = loadScenario(text);
  if (!loaded.ok) return 'refused';
  const record = { file: 'any.yaml', sha256: '', toolVersion: '0' };
  const { summary } = compare(loaded.scenario, { ...record, replications: REPLICATIONS, draws: 40 });
  fail(text, unspeakable(summary));
  const known = ownTexts(scenario);
  const shown = [terminalText(summary), previewText(previewScenario(loaded.scenario)), wholeText(imagesCsv(summary))];
  for (const each of shown) fail(text, strayWords(each, known));
  JSON.parse(wholeText(summaryJson(summary)));
  return 'compared';
}

/** Every fault has a place in the file, and says in plain words what was read and what is wanted. */
export function checkFaults(text: string, faults: readonly Fault[]): void {
  if (faults.length === 0) throw new Error(`refused without a word\n${text}`);
  const lines = text.split(/\r\n|\r|\n/u);
  for (const { line, column, message } of faults) {
    const isInside = line >= 1 && line <= lines.length && column >= 1 && column <= (lines[line - 1] ?? '').length + 2;
    if (!isInside) throw new Error(`${line}:${column} is not in the file: ${message}\n${text}`);
    if (/Invalid input|undefined|\[object [A-Z]|NaN/u.test(message.replace(/`[^`]*`/gu, '')))
      throw new Error(`not in plain words: ${message}\n${text}`);
  }
}

const anyScenario: Target<Data> = {
  promise:
    'a scenario of any shape is refused with its faults, or runs to its end and keeps the laws of conservation in `laws.ts`',
  cases: scenarios,
  form: DATA,
  check: (scenario) => play(stringify(scenario)),
};

const anyStudy: Target<Data> = {
  promise: 'no comparison of any scenario has a number that is none, in its summary, tables and text',
  cases: scenarios,
  form: DATA,
  check: study,
  every: 20,
};

const almostValid: Target<Broken> = {
  promise: 'a scenario with one thing wrong gets a message with its place in the file',
  cases: breaksIn(scenarios),
  form: BROKEN,
  check: ({ text, what }) => {
    const loaded = loadScenario(text);
    if (loaded.ok) throw new Error(`nothing was said of this: ${what}\n${text}`);
    checkFaults(text, loaded.faults);
    return what.split(' ', 1)[0] ?? '';
  },
};

const spoiledScenario: Target<string> = {
  promise: 'a scenario text with anything cut, doubled or put in is refused with its faults, or runs',
  cases: spoiledTexts(textsIn(['scenarios', 'scenarios/starters', 'tests/support'], '.yaml')),
  form: TEXT,
  check: (text) => {
    const loaded = loadScenario(text);
    if (loaded.ok) return 'loaded';
    checkFaults(text, loaded.faults);
    return 'refused';
  },
};

const noise: Target<Uint8Array> = {
  promise: 'any bytes at all are refused as a scenario with a message, or run',
  cases: fc.uint8Array({ maxLength: 300 }),
  form: BYTES,
  check: (bytes) => {
    const text = new TextDecoder('utf-8').decode(bytes);
    const loaded = loadScenario(text);
    if (!loaded.ok) checkFaults(text, loaded.faults);
    return loaded.ok ? 'loaded' : 'refused';
  },
};

export const SCENARIO_TARGETS = {
  'any scenario': anyScenario,
  'any comparison': anyStudy,
  'almost valid scenario': almostValid,
  'spoiled scenario text': spoiledScenario,
  'scenario of noise': noise,
};
