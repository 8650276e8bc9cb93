import type { AboutLog } from './results.js';
import type { ReadTable } from './rows.js';

/** What is put on record of a table that was read. */
export function aboutLog(
  { lastDate, rowCount, rows, leftOut, columns, readAs, faults }: ReadTable<unknown>,
  { file, sha256, date }: { readonly file: string; readonly sha256: string; readonly date: string | null },
): AboutLog {
  return {
    file,
    sha256,
    date: date ?? lastDate,
    rows: rowCount,
    used: rows.length,
    leftOut,
    columns: columns.read,
    unread: columns.unread,
    readAs,
    notUsed: faults
      .filter(({ severity }) => severity === 'row')
      .map(({ line, column, message }) => ({ line, column, message })),
  };
}
