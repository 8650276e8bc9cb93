import { existsSync } from 'node:fs';
import { type Appended, GREATEST_LOG } from '../analysis/sheet.js';
import { Failure } from '../scenario/failure.js';
import { shellLine } from '../scenario/shell-line.js';
import { faultIn, type LoggedRole, withRow } from '../studies/fit/log-row.js';
import { ENDINGS } from '../studies/fit/endings.js';
import { mappingFileOf, readMapping } from '../studies/fit/mapping.js';
import type { LogOptions } from '../studies/fit/read-log.js';
import { isScanLog, type ScanColumn, scanFaultIn, withScan } from '../studies/midway/scan-log.js';
import { text } from '../studies/options.js';
import { capital, counted } from '../wording/phrases.js';
import { asking, canAsk } from './asking.js';
import { command } from './command.js';
import { readText } from './text-file.js';
import { writeWholeFile } from '../execution/machine/whole-file.js';

const LOG = {
  what: 'a log',
  form: 'rows are added to comma-separated text; save a workbook as CSV UTF-8',
  most: 4 * GREATEST_LOG,
};

/** What is asked where it is not given. */
const QUESTIONS: readonly (readonly [LoggedRole, string])[] = [
  ['tip', 'Which tip ended, such as S-014?'],
  ['kind', 'Of which kind? [Enter: the only one]'],
  ['images', 'How many images did it take in all?'],
  ['sound-images', 'After how many images was it last seen to be sound? [Enter: not known]'],
  ['ended', `What ended it? [${ENDINGS.join(', ')}]`],
];
const NEEDED: readonly LoggedRole[] = ['tip', 'images', 'ended'];

/** The same of a scan. */
const SCAN_QUESTIONS: readonly (readonly [ScanColumn, string])[] = [
  ['image', 'Which image, such as "region 3: islands" or its number?'],
  ['tip', 'With which tip? [Enter: that of the scan before]'],
  ['outcome', 'What became of it? [kept, flagged, unreviewed]'],
  ['check', 'What did a check say? [passed, failed; Enter: there was none]'],
  ['radius [nm]', 'Which apex radius did it read, in nm? [Enter: none]'],
  ['tip ended', `Did the tip end, and of what? [${ENDINGS.join(', ')}; Enter: no]`],
];

export const log = command({
  does: 'Write down the end of a tip as a row of a log that fit reads, or with --image a scan that midway reads; asks for what is not given',
  takes: { form: '<file>', help: 'The log (CSV); it is begun where it is not there' },
  options: {
    tip: text('Name of the tip'),
    kind: text('Its kind, as the scenario calls it'),
    images: text('Images that it took in all'),
    path: text('Sliding path, such as "12 mm"'),
    approaches: text('Approaches that it made'),
    sound: text('Images after which it was last seen to be sound'),
    load: text('Load, such as "2 nN"'),
    ended: text(`What ended it: ${ENDINGS.join(', ')}`),
    date: text('Day, such as 2031-05-17 [default: today]'),
    image: text('Of a scan: its image, such as "region 3: islands", or its number'),
    outcome: text('Of a scan: kept, flagged or unreviewed'),
    check: text('Of a scan: what a check after it said, passed or failed'),
    radius: text('Of a scan: the apex radius that the check read, in nm'),
    time: text('Of a scan: when it was over, such as "Tue 14:00"'),
  },
  run: async (typed, { file, console }) => {
    const before = existsSync(file) ? readText(file, LOG).text : null;
    const isOfScans = typed.image !== undefined || (before !== null && isScanLog(before));
    const { tip, kind, images, path, approaches, sound, load, ended, date } = typed;
    const { image, outcome, check, radius, time } = typed;
    if (isOfScans) {
      const values = await filled<ScanColumn>(
        [
          ['time', time],
          ['image', image],
          ['tip', tip],
          ['outcome', outcome],
          ['check', check],
          ['radius [nm]', radius],
          ['tip ended', ended],
        ],
        { questions: SCAN_QUESTIONS, needed: ['image', 'outcome'], faultIn: scanFaultIn },
      );
      write(file, withScan(before, values), (rows) => {
        console.note(`${file}: ${counted(rows, 'scan')}; next:  ${shellLine('midway', 'SCENARIO', { done: file })}`);
      });
      return;
    }
    const options = optionsFor(file);
    const values = await filled<LoggedRole>(
      [
        ['tip', tip],
        ['kind', kind],
        ['images', images],
        ['distance', path],
        ['approaches', approaches],
        ['sound-images', sound],
        ['load', load],
        ['ended', ended],
        ['date', date],
      ],
      { questions: QUESTIONS, needed: NEEDED, faultIn: (role, value) => faultIn(role, value, options) },
    );
    const today = new Map<LoggedRole, string>([['date', new Date().toISOString().slice(0, 10)]]);
    write(file, withRow(before, values, options, today), (rows) => {
      console.note(`${file}: ${counted(rows, 'tip')}; next:  ${shellLine('fit', file)}`);
    });
  },
});

/** What is asked where it is not given. */
interface Asked<Column> {
  readonly questions: readonly (readonly [Column, string])[];
  readonly needed: readonly Column[];
  readonly faultIn: (column: Column, value: string) => string | null;
}

/** What is given, and what somebody answers where something that is needed is not; what is wrong is asked again. */
async function filled<Column extends string>(
  given: readonly (readonly [Column, string | undefined])[],
  { questions, needed, faultIn: wrongIn }: Asked<Column>,
): Promise<ReadonlyMap<Column, string>> {
  const values = new Map<Column, string>();
  for (const [column, value] of given) if (value !== undefined) values.set(column, value);
  const missing = needed.filter((column) => !values.has(column));
  if (missing.length > 0 && !canAsk())
    throw new Failure(`there is no terminal to ask on: --${missing.join(', --')} wanted`);
  if (missing.length > 0)
    await asking(async (ask) => {
      for (const [column, question] of questions) {
        if (values.has(column)) continue;
        let asked = question;
        for (;;) {
          const answer = await ask(asked);
          const wrong =
            answer !== '' ? wrongIn(column, answer) : needed.includes(column) ? 'an answer is wanted' : null;
          values.set(column, answer);
          if (wrong === null) break;
          asked = `${capital(wrong)}. ${question}`;
        }
      }
    });
  for (const [column, value] of values) if (value === '') values.delete(column);
  return values;
}

function write(file: string, appended: Appended, then: (rows: number) => void): void {
  if (!appended.ok) throw new Failure(appended.messages.map((message) => `${message}; nothing was written`));
  writeWholeFile(file, appended.text);
  then(appended.rows);
}

/** As a mapping beside the log says; else as the program reads its own logs. */
function optionsFor(file: string): LogOptions {
  const path = mappingFileOf(file);
  const plain = { kind: null, kinds: new Map(), columns: new Map(), units: new Map(), endings: new Map() };
  if (!existsSync(path)) return plain;
  const { text: written } = readText(path, { what: 'a mapping', form: 'a mapping is a YAML file', most: 1_000_000 });
  const reading = readMapping(written);
  if (!reading.ok) throw new Failure(reading.messages.map((message) => `${path}: ${message}`));
  const { kind, columns, units, endings } = reading.mapping;
  return { ...plain, kind, columns, units, endings };
}
