import { basename } from 'node:path';
import { GREATEST_LOG, readSheet, type TableSource } from '../../analysis/sheet.js';
import { Failure } from '../../scenario/failure.js';
import type { Scenario } from '../../scenario/schema/scenario.js';
import { counted, listed } from '../../wording/phrases.js';
import type { Ground, WorkbookSheet } from '../study.js';
import { layOut } from './layout.js';
import { type LogMapping, mappingFileOf, NO_MAPPING, readMapping } from './mapping.js';
import { fitBlunting, readRadii } from './radii.js';
import type { ReadLog } from './read-log.js';
import type { BluntingFit } from './results.js';
import type { ReadTable, TableReading } from './rows.js';

/** A character has at most four bytes. */
const LOG_TEXT = {
  what: 'a log',
  form: 'a log is comma-separated text in UTF-8, or an .xlsx workbook; in a spreadsheet, save it as either',
  most: 4 * GREATEST_LOG,
} as const;
const MAPPING_TEXT = { what: 'a mapping', form: 'a mapping is a YAML file', most: 1_000_000 } as const;

/** A table of a file, which may be one sheet of a workbook. */
export interface OpenedTable {
  readonly file: string;
  readonly source: TableSource;
  readonly sha256: string;
  /** Null for a text. */
  readonly sheet: string | null;
}

/**
 * Reads the file that is studied: a text, or the sheet of a workbook that is asked for; else its only one, or the only one
 * with known heads.
 * @param isKnown whether a head says what its column holds
 */
export async function openSheet(
  ground: Ground,
  wanted: string | null,
  isKnown: (head: string) => boolean,
): Promise<OpenedTable> {
  const { file, sha256, content } = await ground.table(ground.file, LOG_TEXT);
  if (typeof content === 'string') {
    if (wanted !== null) throw new Failure(`--sheet is of a workbook; ${file} is a text`);
    return { file, source: content, sha256, sheet: null };
  }
  const { name, rows } = sheetOf(file, content, wanted, isKnown);
  return { file, source: rows, sha256, sheet: name };
}

function sheetOf(
  file: string,
  sheets: readonly WorkbookSheet[],
  wanted: string | null,
  isKnown: (head: string) => boolean,
): WorkbookSheet {
  const names = listed(sheets.map(({ name }) => `\`${name}\``));
  if (sheets.length === 0) throw new Failure(`${file}: no sheet of this workbook has any text`);
  if (wanted !== null) {
    const found = sheets.find(({ name }) => name === wanted);
    if (found === undefined) throw new Failure(`${file} has no sheet \`${wanted}\`; it has ${names}`);
    return found;
  }
  if (sheets.length === 1) return sheets[0];
  const tables = sheets.filter(({ rows }) => {
    const sheet = readSheet(rows);
    const found = sheet.ok ? layOut(sheet.sheet, isKnown) : null;
    return found?.ok === true && found.layout.head.cells.filter(({ text }) => isKnown(text)).length > 1;
  });
  if (tables.length === 1) return tables[0];
  throw new Failure(`${file} has the sheets ${names}; say which holds the log with --sheet NAME`);
}

/** Reads a text that is no workbook. */
export function openText(ground: Ground): OpenedTable {
  const { file, text, sha256 } = ground.text(ground.file, LOG_TEXT);
  return { file, source: text, sha256, sheet: null };
}

/** How a log is read, from the file that is named, or from the one that lies beside it. */
export function openMapping(
  ground: Ground,
  given: string | undefined,
): { readonly file: string; readonly sha256: string; readonly mapping: LogMapping } | null {
  const file = given ?? mappingFileOf(ground.file);
  if (given === undefined && !ground.isThere(file)) return null;
  const { text, sha256 } = ground.text(file, MAPPING_TEXT);
  const reading = readMapping(text);
  if (!reading.ok) throw new Failure(reading.messages.map((message) => `${file}: ${message}`));
  return { file: basename(file), sha256, mapping: reading.mapping };
}

/** What was said already of how a log is read; nothing where no mapping lies beside it, or one that is not whole yet. */
export function mappingBefore(ground: Ground): LogMapping {
  const file = mappingFileOf(ground.file);
  const reading = ground.isThere(file) ? readMapping(ground.text(file, MAPPING_TEXT).text) : null;
  return reading?.ok === true ? reading.mapping : NO_MAPPING;
}

const LEVEL = 0.95;

/**
 * Reads a table; what cannot be used is shown with its place. A row of that kind is a failure, unless the user `skips` such rows.
 * @param bias what leaving rows out may do
 */
export function readTable<Table extends ReadTable<unknown>>(
  ground: Ground,
  table: OpenedTable,
  read: (source: TableSource) => TableReading<Table>,
  { skips, bias }: { readonly skips: boolean; readonly bias: string },
): Table {
  const { file, source } = table;
  const reading = read(source);
  if (!reading.ok) {
    ground.show(table, reading.faults, 'error');
    throw new Failure(`${counted(reading.faults.length, 'error')} in ${file}; nothing was fitted or written`);
  }
  const { log } = reading;
  const refused = log.faults.filter(({ severity }) => severity === 'row');
  ground.show(table, refused, skips ? 'not used' : 'error');
  if (log.rows.length === 0) throw new Failure(`no row of ${file} can be used; nothing was fitted or written`);
  if (refused.length > 0 && !skips)
    throw new Failure(
      `${counted(refused.length, 'row')} of ${log.rowCount} in ${file} cannot be used; nothing was fitted or written: put ${refused.length === 1 ? 'it' : 'them'} right, or run this again with --skip to leave ${refused.length === 1 ? 'it' : 'them'} out, which ${bias}`,
    );
  ground.note(
    `${file}: ${counted(log.rowCount, 'row')}: ${log.rows.length} used, ${log.leftOut} left out, ${refused.length} faulty`,
  );
  for (const note of log.faults.filter(({ severity }) => severity === 'note'))
    ground.note(`  left out: ${note.message} (line ${note.line})`);
  for (const { word, meant, rows } of log.readAs)
    ground.note(`  read \`${word}\` as ${meant} (${counted(rows, 'row')})`);
  if (log.columns.unread.length > 0)
    ground.note(`  nothing is read of ${log.columns.unread.map((head) => `\`${head}\``).join(', ')}`);
  return log;
}

/**
 * Reads a table of radii and fits the blunting of each kind in it.
 * @param kinds of the scenario, for the half-angle of the cone
 */
export function openRadii(
  ground: Ground,
  path: string,
  log: ReadLog,
  kinds: Scenario['tips'],
): {
  readonly fits: readonly BluntingFit[];
  readonly file: string;
  readonly sha256: string;
  readonly warnings: readonly string[];
} {
  const { text, sha256 } = ground.text(path, LOG_TEXT);
  const file = basename(path);
  const known = new Map(log.rows.map(({ tip, kind }) => [tip, kind]));
  const all = [...new Set(known.values())];
  const reading = readRadii(text, (tip, kind) =>
    kind === '' ? (known.get(tip) ?? (all.length === 1 ? all[0] : null)) : kind,
  );
  ground.show({ file: path }, reading.faults, reading.ok ? 'not used' : 'error');
  if (!reading.ok)
    throw new Failure(`${counted(reading.faults.length, 'error')} in ${path}; nothing was fitted or written`);
  if (reading.readings.length === 0) throw new Failure(`no row of ${path} can be used; nothing was fitted or written`);
  const warnings =
    reading.faults.length === 0 ? [] : [`${counted(reading.faults.length, 'row')} of ${file} could not be used`];
  const fits = [...new Set(reading.readings.map(({ kind }) => kind))].flatMap((kind): readonly BluntingFit[] => {
    const halfAngle = new Map(Object.entries(kinds)).get(kind)?.blunting?.halfAngle ?? null;
    const fitted = fitBlunting(
      { kind, file, sha256, halfAngle },
      reading.readings.filter((each) => each.kind === kind),
      LEVEL,
    );
    if (fitted.ok) return [fitted.fit];
    warnings.push(fitted.message);
    return [];
  });
  return { fits, file, sha256, warnings };
}
