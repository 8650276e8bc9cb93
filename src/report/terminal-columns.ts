import { stripVTControlCharacters } from 'node:util';
import stringWidth from 'string-width';
import { type Table as Data, textTable } from './table.js';
import { graphemes, plainText, unbroken } from './text.js';
import { plainSpaces } from '../wording/numbers.js';

/** Wide enough for the tables, narrow enough for reading; a terminal may have less. */
export const PAGE_WIDTH = 100;

/** Columns of one width, the first `left` of them to the left. A cell may have several lines; an empty line is left out. */
export function block(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  left: number,
  gap: number,
): string {
  const lines = [head, ...rows].flatMap((row) => {
    const cells = row.map((cell) => cell.split('\n'));
    const height = Math.max(...cells.map(({ length }) => length));
    return Array.from({ length: height }, (_, line) => cells.map((cell) => cell.at(line) ?? ''));
  });
  const widths = head.map((_, place) => Math.max(1, ...lines.map((cells) => stringWidth(cells[place]))));
  const padded = (cell: string, place: number): string => {
    const space = ' '.repeat(widths[place] - stringWidth(cell));
    return place < left ? cell + space : space + cell;
  };
  return lines
    .map((cells) => cells.map(padded).join(' '.repeat(gap)).trimEnd())
    .filter((line) => line !== '')
    .join('\n');
}

/** Whether no line is wider. Control sequences that set a style take no room. */
export function fits(text: string, width: number): boolean {
  return text.split('\n').every((line) => graphemes(stripVTControlCharacters(line)).length <= width);
}

/** The first of several tables that has room in a terminal; the last one where none has. */
export function firstFitting(tables: readonly Data[], columns = PAGE_WIDTH): Data {
  const width = Math.min(columns, PAGE_WIDTH);
  return tables.find((table) => fits(textTable(table), width)) ?? tables[tables.length - 1];
}

/** Broken at spaces into lines no wider than `width`; a longer word stands alone, a number stays with its unit. */
export function wrapped(text: string, width: number): string {
  const lines: string[] = [];
  let line = '';
  for (const word of unbroken(text).split(' ')) {
    if (line !== '' && graphemes(`${line} ${word}`).length > width) {
      lines.push(line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  return plainSpaces([...lines, line].join('\n'));
}

/** A table no wider than this; where it would be, every cell stands on a line of its own. */
export function tableText(table: Data, width: number): string {
  const rows = table.rows.map((row) => row.map((cell) => plainSpaces(plainText(cell))));
  const head = table.columns.map(({ label }) => plainText(label));
  const left = table.columns.findIndex(({ numeric }) => numeric === true);
  const whole = block(head, rows, left < 0 ? table.columns.length : left, 2);
  if (fits(whole, width)) return whole;
  return rows
    .map((row) =>
      row
        .map((cell, place) => (place === 0 ? wrapped(cell, width) : indented(`${head[place]}: ${cell}`, width)))
        .join('\n'),
    )
    .join('\n');
}

/** Set in by two columns, so that it is seen whose row a cell is of. */
function indented(text: string, width: number): string {
  return wrapped(text, width - 2)
    .split('\n')
    .map((line) => `  ${line}`)
    .join('\n');
}
