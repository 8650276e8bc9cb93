import { type Appended, delimiterOf, quotedCell, readSheet } from '../../analysis/sheet.js';
import { PLAIN_NOTATION, readAmount } from './amounts.js';
import { readEnding, wordsOf } from './endings.js';
import { headOf, type Role, roleOf } from './heads.js';
import { type LogOptions, readLog } from './read-log.js';

/** Columns of a log that the program begins, in their order, and what each holds. */
export const LOG_COLUMNS = [
  { head: 'tip', role: 'tip' },
  { head: 'kind', role: 'kind' },
  { head: 'images', role: 'images' },
  { head: 'path [mm]', role: 'distance' },
  { head: 'approaches', role: 'approaches' },
  { head: 'last sound images', role: 'sound-images' },
  { head: 'load [nN]', role: 'load' },
  { head: 'ended', role: 'ended' },
  { head: 'date', role: 'date' },
] as const satisfies readonly { readonly head: string; readonly role: Role }[];
export type LoggedRole = (typeof LOG_COLUMNS)[number]['role'];

/** What is wrong with a value by itself; null where nothing is. */
export function faultIn(role: LoggedRole, text: string, { endings }: LogOptions): string | null {
  if (role === 'images' || role === 'sound-images') {
    const reading = readAmount('image', text, 1, PLAIN_NOTATION);
    return reading.ok ? null : reading.message;
  }
  if (role !== 'ended') return null;
  const reading = readEnding(text, wordsOf(endings));
  return reading.ok ? null : reading.message;
}

/**
 * A log's text with the end of one more tip; refused where the log has no column for a value, or the row could not be read.
 * @param before null where the log is begun
 * @param given values as they are written, by what they are
 * @param usual values that are written where none is given and the log has a column for them
 */
export function withRow(
  before: string | null,
  given: ReadonlyMap<LoggedRole, string>,
  options: LogOptions,
  usual: ReadonlyMap<LoggedRole, string> = new Map(),
): Appended {
  const text = before ?? `${LOG_COLUMNS.map(({ head }) => head).join(',')}\n`;
  const sheet = readSheet(text);
  if (!sheet.ok) return { ok: false, messages: sheet.faults.map(({ message }) => message) };
  const { cells } = sheet.sheet.head;
  const roles = cells.map(({ text: head }) => roleIn(head, options));
  const values = new Map([...[...usual].filter(([role]) => roles.includes(role)), ...given]);
  const missing = [...given].filter(([role]) => !roles.includes(role));
  if (missing.length > 0)
    return {
      ok: false,
      messages: missing.map(
        ([role, value]) =>
          `the log has no column for ${role}, so \`${value}\` has no place; add one, or say which it is with \`fit --map\``,
      ),
    };
  const delimiter = delimiterOf(text);
  const row = roles.map((role) =>
    quotedCell(
      LOG_COLUMNS.flatMap((each) => (each.role === role ? (values.get(each.role) ?? []) : [])).join(''),
      delimiter,
    ),
  );
  const after = `${text.replace(/(?<!\n)$/u, '\n')}${row.join(delimiter)}\n`;
  const reading = readLog(after, options);
  if (!reading.ok) return { ok: false, messages: reading.faults.map(({ message }) => message) };
  const earlier = readLog(text, options);
  if (earlier.ok && earlier.log.leftOut !== reading.log.leftOut)
    return {
      ok: false,
      messages: [
        'the log ends with a sum of the rows above, which below another row would be a tip; take it out first',
      ],
    };
  const line = after.split('\n').length - 1;
  const faults = reading.log.faults.filter((fault) => fault.line === line);
  if (faults.length > 0) return { ok: false, messages: faults.map(({ message }) => message) };
  return { ok: true, text: after, rows: reading.log.rowCount };
}

function roleIn(head: string, { columns }: LogOptions): string | null {
  const named = [...columns].find(([, text]) => headOf(text).name === headOf(head).name);
  return named?.[0] ?? roleOf(headOf(head));
}
