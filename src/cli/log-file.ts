import { basename } from 'node:path';
import type { TextFault } from '../scenario/places.js';
import type { Scenario } from '../scenario/schema/scenario.js';
import { readDrift } from '../study/fit/drift/read-drift.js';
import { fitBlunting, readRadii } from '../study/fit/radii.js';
import { type LogOptions, type ReadLog, readLog } from '../study/fit/read-log.js';
import type { BluntingFit } from '../study/fit/results.js';
import type { ReadTable, TableReading } from '../study/fit/rows.js';
import { GREATEST_LOG } from '../study/fit/sheet.js';
import type { ColumnOptions } from '../study/fit/taken.js';
import type { Console } from './console.js';
import { Failure } from './failure.js';
import { faultLines } from './fault-list.js';
import { readText } from './text-file.js';

/** A character has at most four bytes. */
const LOG_TEXT = {
  what: 'a log',
  form: 'a log is comma-separated text in UTF-8; in a spreadsheet, save it as CSV UTF-8',
  most: 4 * GREATEST_LOG,
} as const;

const LEVEL = 0.95;

/** Each as editors and terminals link it: `file:line:column  what  message`. */
function complain(file: string, faults: readonly TextFault[], label: 'error' | 'not used', console: Console): void {
  const tone = console.toned(label === 'error' ? 'red' : 'yellow', label);
  const told = ({ line, column, message }: TextFault) => `${file}:${line}:${column}  ${tone}  ${message}`;
  for (const each of faultLines(faults, told)) console.complain(each);
}

function count(n: number, noun: string): string {
  return `${n} ${noun}${n === 1 ? '' : 's'}`;
}

/**
 * Reads a table; what cannot be used is shown with its place. A row of that kind is a failure, unless the user `skips` such rows.
 * @param bias what leaving rows out may do
 */
function openTable<Table extends ReadTable<unknown>>(
  file: string,
  read: (text: string) => TableReading<Table>,
  { skips, bias }: { readonly skips: boolean; readonly bias: string },
  console: Console,
): { readonly log: Table; readonly sha256: string } {
  const { text, sha256 } = readText(file, LOG_TEXT);
  const reading = read(text);
  if (!reading.ok) {
    complain(file, reading.faults, 'error', console);
    throw new Failure(`${count(reading.faults.length, 'error')} in ${file}; nothing was fitted or written`);
  }
  const { log } = reading;
  const refused = log.faults.filter(({ severity }) => severity === 'row');
  complain(file, refused, skips ? 'not used' : 'error', console);
  if (log.rows.length === 0) throw new Failure(`no row of ${file} can be used; nothing was fitted or written`);
  if (refused.length > 0 && !skips)
    throw new Failure(
      `${count(refused.length, 'row')} of ${log.rowCount} in ${file} cannot be used; nothing was fitted or written: put ${refused.length === 1 ? 'it' : 'them'} right, or run this again with --skip to leave ${refused.length === 1 ? 'it' : 'them'} out, which ${bias}`,
    );
  console.note(`${file}: ${count(log.rowCount, 'row')}, ${log.rows.length} used, ${refused.length} not used`);
  for (const { word, meant, rows } of log.readAs)
    console.note(`  read \`${word}\` as ${meant} (${count(rows, 'row')})`);
  if (log.columns.unread.length > 0)
    console.note(`  nothing is read of ${log.columns.unread.map((head) => `\`${head}\``).join(', ')}`);
  return { log, sha256 };
}

/** Reads a log. Tips whose end is not understood mostly failed, and without them all lives come out too long. */
export function openLog(file: string, options: LogOptions, skips: boolean, console: Console) {
  return openTable(file, (text) => readLog(text, options), { skips, bias: 'may bias every life' }, console);
}

/** Reads a table of drift. */
export function openDrift(file: string, options: ColumnOptions, skips: boolean, console: Console) {
  return openTable(file, (text) => readDrift(text, options), { skips, bias: 'may bias the fit' }, console);
}

/**
 * Reads a table of radii and fits the blunting of each kind in it.
 * @param kinds of the scenario, for the half-angle of the cone
 */
export function openRadii(
  file: string,
  log: ReadLog,
  kinds: Scenario['tips'],
  console: Console,
): {
  readonly fits: readonly BluntingFit[];
  readonly file: string;
  readonly sha256: string;
  readonly warnings: readonly string[];
} {
  const { text, sha256 } = readText(file, LOG_TEXT);
  const known = new Map(log.rows.map(({ tip, kind }) => [tip, kind]));
  const all = [...new Set(known.values())];
  const reading = readRadii(text, (tip, kind) =>
    kind === '' ? (known.get(tip) ?? (all.length === 1 ? all[0] : null)) : kind,
  );
  complain(file, reading.faults, reading.ok ? 'not used' : 'error', console);
  if (!reading.ok)
    throw new Failure(`${count(reading.faults.length, 'error')} in ${file}; nothing was fitted or written`);
  if (reading.readings.length === 0) throw new Failure(`no row of ${file} can be used; nothing was fitted or written`);
  const warnings =
    reading.faults.length === 0
      ? []
      : [`${count(reading.faults.length, 'row')} of ${basename(file)} could not be used`];
  const fits = [...new Set(reading.readings.map(({ kind }) => kind))].flatMap((kind): readonly BluntingFit[] => {
    const halfAngle = new Map(Object.entries(kinds)).get(kind)?.blunting?.halfAngle ?? null;
    const fitted = fitBlunting(
      { kind, file: basename(file), sha256, halfAngle },
      reading.readings.filter((each) => each.kind === kind),
      LEVEL,
    );
    if (fitted.ok) return [fitted.fit];
    warnings.push(fitted.message);
    return [];
  });
  return { fits, file: basename(file), sha256, warnings };
}
