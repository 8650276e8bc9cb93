import fc from 'fast-check';
import { compileModel } from '../../src/campaign/model.js';
import { driftFitText } from '../../src/studies/fit/drift/terminal.js';
import { fitText } from '../../src/studies/fit/terminal.js';
import { driftBlock, hazardBlock } from '../../src/studies/fit/block.js';
import { readDrift } from '../../src/studies/fit/drift/read-drift.js';
import { fitBlunting, readRadii } from '../../src/studies/fit/radii.js';
import { readLog } from '../../src/studies/fit/read-log.js';
import { readState } from '../../src/studies/midway/read-state.js';
import { fittedLog } from '../support/fitted-log.js';
import { fittedDrift } from '../support/made-drift.js';
import { strayWords, unspeakable } from './laws.js';
import { spoiledTexts, textsIn } from './spoiled.js';
import { TEXT } from './corpus.js';
import type { Target } from './target.js';
import { loadedOf } from '../support/run.js';

const PLAIN = { kind: null, kinds: new Map(), columns: new Map(), units: new Map(), endings: new Map() };
const STYLES = { strong: String, quiet: String, warning: String };

function located(
  text: string,
  faults: readonly { readonly line: number; readonly column: number; readonly message: string }[],
): void {
  const lines = text.split(/\r\n|\r|\n/u).length;
  for (const { line, column, message } of faults)
    if (!(line >= 1 && line <= lines && column >= 1) || message === '')
      throw new Error(`${line}:${column} is not in the table: ${message}\n${text}`);
}

/** Reads a log and fits it as the command line does; nothing that is said may be no number. */
function fit(text: string): string {
  const reading = readLog(text, PLAIN);
  if (!reading.ok) {
    if (reading.faults.length === 0) throw new Error(`refused without a word\n${text}`);
    located(text, reading.faults);
    return 'refused';
  }
  const { log } = reading;
  located(text, log.faults);
  if (log.rows.length === 0) return 'no row of use';
  const summary = fittedLog(text);
  const own = log.rows.flatMap(({ tip, kind }) => [tip, kind]);
  const broken = [
    ...unspeakable(summary),
    ...strayWords(fitText(summary, '', STYLES), own),
    ...strayWords(hazardBlock(summary), own),
  ];
  if (broken.length > 0) throw new Error(`${broken.join('; ')}\n${text}`);
  return 'fitted';
}

const amount = fc.oneof(
  { arbitrary: fc.integer({ min: 1, max: 60 }).map(String), weight: 12 },
  { arbitrary: fc.double({ min: -6, max: 6, noNaN: true }).map((power) => (10 ** power).toPrecision(3)), weight: 3 },
  { arbitrary: fc.constantFrom('', '0', '-1', '1,5', '1e999', 'NaN', '3 mm', '∞', '1e15', '1e-300'), weight: 1 },
);
const ending = fc.constantFrom(
  'breakage',
  'breakage',
  'fouling',
  'chipping',
  'coating',
  'worn out',
  '',
  'sound',
  'broken?',
  '?',
  'lost',
);
const cells = {
  tip: fc.oneof(fc.integer({ min: 1, max: 999 }).map(String), fc.string({ maxLength: 4 })),
  kind: fc.constantFrom('sharp', 'sharp', 'Sharp', 'soft', ''),
  images: amount,
  'path [mm]': amount,
  'hours [min]': amount,
  approaches: amount,
  'load [nN]': amount,
  pace: amount,
  'images before': amount,
  'last sound images': amount,
  ended: ending,
  date: fc.constantFrom('2031-01-02', '2031-02-30', 'yesterday', ''),
  notes: fc.string({ maxLength: 8 }),
};

function quoted(cell: string, separator: string): string {
  return /["\r\n]/u.test(cell) || cell.includes(separator) ? `"${cell.replaceAll('"', '""')}"` : cell;
}

/** Logs of any columns, separators and cells, mostly such as people keep. */
const logs: fc.Arbitrary<string> = fc
  .record({
    columns: fc.subarray(Object.keys(cells), { minLength: 3 }),
    rows: fc.array(fc.record(cells), { minLength: 1, maxLength: 25 }),
    separator: fc.constantFrom(',', ';', '\t'),
    end: fc.constantFrom('\n', '\r\n'),
    mark: fc.constantFrom('', '\uFEFF'),
  })
  .map(({ columns, rows, separator, end, mark }) => {
    const heads = [...new Set(['tip', 'images', 'ended', ...columns])];
    const lines = rows.map((row) => {
      const held = new Map(Object.entries(row));
      return heads.map((name) => quoted(held.get(name) ?? '', separator)).join(separator);
    });
    return mark + [heads.join(separator), ...lines].join(end);
  });

const anyLog: Target<string> = {
  promise:
    'a log of any columns and cells is refused with its faults, or each row is used or said, and what is fitted are numbers',
  cases: logs,
  form: TEXT,
  check: fit,
};

const spoiledLog: Target<string> = {
  promise: 'a log with anything cut, doubled or put in is refused with its faults, or fitted',
  cases: spoiledTexts([
    ...textsIn(['scenarios/logs'], '.csv', 1500),
    'tip,kind,images,ended\n1,a,3,broken\n2,a,8,sound\n',
  ]),
  form: TEXT,
  check: fit,
};

const radii: Target<string> = {
  promise: 'a table of radii with anything cut, doubled or put in is refused with its faults, or fitted',
  cases: spoiledTexts(textsIn(['scenarios/logs'], 'radii.csv', 400)),
  // The fit takes some tenths of a second.
  every: 10,
  form: TEXT,
  check: (text) => {
    const reading = readRadii(text, (_, kind) => (kind === '' ? 'sharp' : kind));
    located(text, reading.faults);
    if (!reading.ok) return 'refused';
    if (reading.readings.length === 0) return 'no row of use';
    const [{ kind }] = reading.readings;
    const mine = reading.readings.filter((each) => each.kind === kind);
    const fitted = fitBlunting({ kind, file: 'radii.csv', sha256: '', halfAngle: 20 }, mine, 0.95);
    const broken = unspeakable(fitted);
    if (broken.length > 0) throw new Error(`${broken.join('; ')}\n${text}`);
    return fitted.ok ? 'fitted' : 'not enough';
  },
};

const drift: Target<string> = {
  promise: 'a table of drift with anything cut, doubled or put in is refused with its faults, or fitted',
  cases: spoiledTexts(textsIn(['scenarios/logs'], 'drift-readings.csv', 2500)),
  every: 10,
  form: TEXT,
  check: (text) => {
    const reading = readDrift(text, PLAIN);
    if (!reading.ok) {
      located(text, reading.faults);
      return 'refused';
    }
    located(text, reading.log.faults);
    if (reading.log.rows.length === 0) return 'no row of use';
    const summary = fittedDrift(text);
    const own = reading.log.rows.map(({ disturbance }) => disturbance);
    const broken = [...unspeakable(summary), ...strayWords(driftFitText(summary, driftBlock(summary), STYLES), own)];
    if (broken.length > 0) throw new Error(`${broken.join('; ')}\n${text}`);
    return summary.kinds.some(({ parameters }) => parameters !== null) ? 'fitted' : 'not enough';
  },
};

function modelOfFirst(text: string) {
  const loaded = loadedOf(text);
  const [{ workflow, settings }] = loaded.strategies;
  return compileModel(workflow, settings);
}

const [ambient = ''] = textsIn(['scenarios'], 'ambient-islands.yaml');
const model = modelOfFirst(ambient);

const states: Target<string> = {
  promise:
    'a table of how a campaign stands, with anything cut, doubled or put in, is refused with its faults, or read',
  cases: spoiledTexts(textsIn(['scenarios/states'], '.csv')),
  form: TEXT,
  check: (text) => {
    const reading = readState(model, text);
    if (reading.ok) return unspeakable(reading.known).length === 0 ? 'read' : 'no number';
    located(text, reading.faults);
    return 'refused';
  },
};

export const LOG_TARGETS = {
  'any log': anyLog,
  'spoiled log': spoiledLog,
  'spoiled table of radii': radii,
  'spoiled table of drift': drift,
  'spoiled table of a state': states,
};
