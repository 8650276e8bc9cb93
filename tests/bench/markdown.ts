import type { Spread } from './spread.js';

/** Whether a target is. */
export function met(isMet: boolean): string {
  return isMet ? 'met' : '**not met**';
}

/** So many times as much, with how far the rounds lay apart. */
export function times(ratio: Spread): string {
  return `× ${spread(ratio, ratio.median < 1 ? 3 : 2)}`;
}

/** Middle, least and most. */
export function spread({ median, least, most }: Spread, digits: number): string {
  const text = (value: number) => (digits === 0 ? count(Math.round(value)) : value.toFixed(digits));
  return `${text(median)} (${text(least)} to ${text(most)})`;
}

/** Columns of numbers stand to the right. */
export function table(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  const isOfNumbers = (column: number) => rows.every((row) => /^(× |\d|$)/.test(row[column]));
  return [line(heads), line(heads.map((_, i) => (isOfNumbers(i) ? '--:' : '---'))), ...rows.map(line)].join('\n');
}

/** With a space every three digits from ten thousand on. */
export function count(value: number): string {
  const digits = String(value);
  return digits.length < 5 ? digits : digits.replace(/\B(?=(\d{3})+$)/g, ' ');
}

/** Bytes as megabytes. */
export function megabytes(bytes: number): string {
  return `${count(Math.round(bytes / 1e6))} MB`;
}
