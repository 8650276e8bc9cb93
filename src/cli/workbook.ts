import { unzipSync } from 'fflate';
import readWorkbookFile from 'read-excel-file/universal';
import * as z from 'zod';
import { inOneLine, type SheetRow } from '../analysis/sheet.js';
import type { TableFile, Wanted, WorkbookSheet } from '../studies/study.js';
import { decode, readBytes, sha256Of } from './text-file.js';
import { Failure } from '../scenario/failure.js';

/** Bytes that all parts of a workbook may unpack to. */
const MOST_UNPACKED = 50_000_000;

/** The first bytes of every workbook, which is a zip archive. */
const SIGNATURE = [0x50, 0x4b, 0x03, 0x04];

/** What the library gives; its types know nothing of dates. */
const sheetsSchema = z.array(
  z.object({
    sheet: z.string(),
    data: z.array(z.array(z.union([z.string(), z.number(), z.boolean(), z.date(), z.null()]))),
  }),
);

export function isWorkbook(bytes: Uint8Array): boolean {
  return SIGNATURE.every((byte, i) => bytes[i] === byte);
}

/** Reads a table; a workbook by its sheets. @throws Failure where it is none */
export async function readTable(file: string, wanted: Wanted): Promise<TableFile> {
  const bytes = readBytes(file, wanted);
  const content = isWorkbook(bytes) ? await readWorkbook(file, bytes) : decode(file, bytes, wanted);
  return { file, sha256: sha256Of(bytes), content };
}

/** Reads the sheets of an `.xlsx` workbook that have any text: formulas as what they came to, dates as year-month-day. */
export async function readWorkbook(file: string, bytes: Uint8Array): Promise<readonly WorkbookSheet[]> {
  const unreadable = (why: string) => new Failure(`${file}: cannot be read as an .xlsx workbook: ${why}`);
  let unpacked = 0;
  try {
    unzipSync(bytes, {
      filter: ({ originalSize }) => {
        unpacked += originalSize;
        return false;
      },
    });
  } catch {
    throw unreadable('it is no whole zip archive');
  }
  if (unpacked > MOST_UNPACKED)
    throw new Failure(
      `${file}: unpacked the workbook has ${(unpacked / 1e6).toFixed(0)} MB; at most ${MOST_UNPACKED / 1e6} MB are read: save the sheet alone`,
    );
  const copy = new ArrayBuffer(bytes.length);
  new Uint8Array(copy).set(bytes);
  let sheets: z.output<typeof sheetsSchema>;
  try {
    sheets = sheetsSchema.parse(await readWorkbookFile(copy));
  } catch {
    throw unreadable('a part of it is missing or is of another form; save it anew, or as CSV UTF-8');
  }
  return sheets
    .map(({ sheet, data }) => ({ name: sheet, rows: data.map(rowOf).filter(hasText) }))
    .filter(({ rows }) => rows.length > 0);
}

type Value = z.output<typeof sheetsSchema>[number]['data'][number][number];

function rowOf(values: readonly Value[], index: number): SheetRow {
  const line = index + 1;
  return {
    place: { line, column: 1 },
    cells: values.map((value, column) => ({ text: textOf(value), place: { line, column: column + 1 } })),
  };
}

function textOf(value: Value): string {
  if (value === null) return '';
  if (value instanceof Date) return value.toISOString().replace(/T00:00:00\.000Z$/u, '');
  return inOneLine(String(value));
}

function hasText({ cells }: SheetRow): boolean {
  return cells.some(({ text }) => text !== '');
}

/** A cell as a spreadsheet calls it: `Tips!C14`. */
export function cellName(sheet: string, { line, column }: { readonly line: number; readonly column: number }): string {
  let [letters, left] = ['', column];
  while (left > 0) {
    letters = String.fromCharCode(65 + ((left - 1) % 26)) + letters;
    left = Math.floor((left - 1) / 26);
  }
  return `${sheet}!${letters}${line}`;
}
