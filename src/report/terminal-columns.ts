import { stripVTControlCharacters } from 'node:util';
import Table from 'cli-table3';
import { graphemes, unbroken } from './text.js';

/** Wide enough for the tables, narrow enough for reading; a terminal may have less. */
export const PAGE_WIDTH = 100;

const LINES = {
  top: '',
  'top-mid': '',
  'top-left': '',
  'top-right': '',
  bottom: '',
  'bottom-mid': '',
  'bottom-left': '',
  'bottom-right': '',
  left: '',
  'left-mid': '',
  mid: '',
  'mid-mid': '',
  right: '',
  'right-mid': '',
};

/** A narrow no-break space and its like take one column in some terminals and none in others. */
export function spaced(text: string): string {
  return text.replace(/[\u00a0\u202f]/g, ' ');
}

/** Columns of one width, the first `left` of them to the left. */
export function block(
  head: readonly string[],
  rows: readonly (readonly string[])[],
  left: number,
  gap: number,
): string {
  const table = new Table({
    chars: { ...LINES, middle: ' '.repeat(gap) },
    style: { head: [], border: [], 'padding-left': 0, 'padding-right': 0, compact: true },
    colAligns: head.map((_, place) => (place < left ? 'left' : 'right')),
  });
  table.push([...head], ...rows.map((row) => [...row]));
  return table
    .toString()
    .split('\n')
    .map((line) => line.trimEnd())
    .filter((line) => line !== '')
    .join('\n');
}

/** Whether no line is wider. Control sequences that set a style take no room. */
export function fits(text: string, width: number): boolean {
  return text.split('\n').every((line) => graphemes(stripVTControlCharacters(line)).length <= width);
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
  return spaced([...lines, line].join('\n'));
}
