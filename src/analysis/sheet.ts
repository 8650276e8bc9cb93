import { CsvError, parse } from 'csv-parse/sync';
import * as z from 'zod';
import type { Place, TextFault } from '../scenario/places.js';
import { show } from '../scenario/show.js';
import { isMissing } from './missing.js';

/** One cell of a table, without the blanks around it. */
export interface Cell {
  readonly text: string;
  readonly place: Place;
}

export interface SheetRow {
  readonly place: Place;
  readonly cells: readonly Cell[];
}

/** What stands in a column; nothing where that is only a sign for nothing. */
export function textAt(cells: SheetRow['cells'], index: number | null): string {
  const text = index === null ? '' : (cells.at(index)?.text ?? '');
  return isMissing(text) ? '' : text;
}

/** A table as a spreadsheet writes it: one row of heads, then the rest; rows without any text are left out. */
export interface Sheet {
  readonly head: SheetRow;
  readonly rows: readonly SheetRow[];
}

export type ReadSheet =
  { readonly ok: true; readonly sheet: Sheet } | { readonly ok: false; readonly faults: readonly TextFault[] };

/** Characters and rows of a log; more is another file. */
export const GREATEST_LOG = 5_000_000;
const MOST_ROWS = 5000;
const MOST_COLUMNS = 200;

/** In this order where two of them are as frequent: a comma is often a decimal sign. */
const DELIMITERS = ['\t', ';', ','] as const;
const QUOTE = '"';

/** A table as a text, or as rows that a workbook has. */
export type TableSource = string | readonly SheetRow[];

/** Reads comma-, semicolon- or tab-separated values (RFC 4180 and what spreadsheets make of it), whichever the heads show. */
export function readSheet(table: TableSource): ReadSheet {
  if (typeof table !== 'string') return sheetOf(table);

  const source = table.replace(/^\uFEFF/u, '');
  if (source.length > GREATEST_LOG)
    return refusal(
      `the file has ${(source.length / 1e6).toFixed(1)} million characters; a log has at most ${GREATEST_LOG / 1e6} million`,
    );
  const nul = source.indexOf('\0');
  if (nul >= 0)
    return refusal(`read ${show('\0')}, which no text file has; a log is comma-separated text in UTF-8`, {
      line: lineBreaks(source.slice(0, nul)) + 1,
      column: 1,
    });
  const rows = rowsOf(source);
  return rows.ok ? sheetOf(rows.rows) : rows;
}

function refusal(message: string, place: Place = { line: 1, column: 1 }): ReadSheet {
  return { ok: false, faults: [{ ...place, message }] };
}

function sheetOf(rows: readonly SheetRow[]): ReadSheet {
  const [head, ...rest] = rows;
  if (rows.length === 0)
    return refusal('the log is empty; a first line with the names of the columns is wanted, then the rows');
  if (rest.length > MOST_ROWS)
    return refusal(`the log has ${rest.length} rows; at most ${MOST_ROWS} are read`, rest[MOST_ROWS].place);
  const wide = rows.find(({ cells }) => cells.length > MOST_COLUMNS);
  if (wide !== undefined)
    return refusal(`this row has ${wide.cells.length} columns; at most ${MOST_COLUMNS} are read`, wide.place);
  return { ok: true, sheet: { head, rows: rest } };
}

type Rows =
  | { readonly ok: true; readonly rows: readonly SheetRow[] }
  | { readonly ok: false; readonly faults: readonly TextFault[] };

/** What the library gives with `raw`, of which its types know nothing. */
const recordsSchema = z.array(z.object({ record: z.array(z.string()), raw: z.string() }));

function rowsOf(source: string): Rows {
  const delimiter = delimiterOf(source);
  try {
    const records = recordsSchema.parse(
      parse(source, {
        delimiter,
        raw: true,
        relax_column_count: true,
        relax_quotes: true,
        trim: true,
        record_delimiter: ['\r\n', '\n', '\r'],
      }),
    );
    let line = 1;
    const rows = records.map(({ record, raw }) => {
      const starts = cellPlaces(raw, delimiter, line);
      const place = { line, column: 1 };
      line += lineBreaks(raw);
      return {
        place,
        cells: record.map((cell, index) => ({ text: inOneLine(cell), place: starts.at(index) ?? place })),
      };
    });
    return { ok: true, rows: rows.filter(({ cells }) => cells.some((cell) => cell.text !== '')) };
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    return {
      ok: false,
      faults: [{ ...unclosed(source), message: `this quote (${QUOTE}) is opened and never closed` }],
    };
  }
}

/** A cell that a spreadsheet broke over lines reads as if it had not. */
export function inOneLine(cell: string): string {
  return cell.replace(/[\n\r\v\f\p{Zl}\p{Zp}\u0085]+/gu, ' ').trim();
}

/** Lines that show which separator a table has; a title above the heads has none, or has it otherwise than the rows. */
const TELLING_LINES = 50;

/** The separator that stands equally often in the most lines, outside of quotes. */
export function delimiterOf(source: string): string {
  const lines = source.split(/\r\n|\n|\r/u, TELLING_LINES).map((line) => line.replace(/"[^"]*"/gu, ''));
  const alike = (delimiter: string) => {
    const counts = lines.map((line) => line.split(delimiter).length - 1).filter((count) => count > 0);
    return Math.max(0, ...counts.map((count) => counts.filter((other) => other === count).length));
  };
  return DELIMITERS.reduce((best, each) => (alike(each) > alike(best) ? each : best));
}

function lineBreaks(text: string): number {
  return text.match(/\r\n|\n|\r/gu)?.length ?? 0;
}

/** Where the cells of one record begin; a quoted one may hold separators and line breaks. */
function cellPlaces(raw: string, delimiter: string, firstLine: number): Place[] {
  const places: Place[] = [];
  let [line, column, quoted, fresh] = [firstLine, 1, false, true];
  for (let at = 0; at < raw.length; at += 1) {
    const sign = raw[at];
    if (fresh && !/[ ]/u.test(sign)) {
      places.push({ line, column });
      fresh = false;
      quoted = sign === QUOTE;
    } else if (quoted && sign === QUOTE) quoted = false;
    else if (!quoted && sign === QUOTE && raw[at - 1] === QUOTE) quoted = true;
    if (!quoted && sign === delimiter) fresh = true;
    const breaks = sign === '\n' || (sign === '\r' && raw[at + 1] !== '\n');
    [line, column] = breaks ? [line + 1, 1] : [line, column + 1];
  }
  return places;
}

/** The first line with an odd number of quotes. */
function unclosed(source: string): Place {
  const lines = source.split(/\r\n|\n|\r/u);
  const index = lines.findIndex((line) => (line.split(QUOTE).length - 1) % 2 === 1);
  return index < 0 ? { line: 1, column: 1 } : { line: index + 1, column: lines[index].lastIndexOf(QUOTE) + 1 };
}

/** A table's text with one row more, or why that could not be written. */
export type Appended =
  | { readonly ok: true; readonly text: string; readonly rows: number }
  | { readonly ok: false; readonly messages: readonly string[] };

/** A cell as it is written, in quotes where it needs them. */
export function quotedCell(text: string, delimiter: string): string {
  return text.includes(delimiter) || /["\r\n]/u.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
