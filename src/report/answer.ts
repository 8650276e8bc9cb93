import type { StudyRecord } from '../study/about.js';
import { numberText } from './format.js';
import { html, plainText, unbroken } from './text.js';
import { verdictBox } from './page/verdict.js';
import type { Table } from './table.js';
import type { Styles } from './terminal.js';
import { block, fits, PAGE_WIDTH, spaced, wrapped } from './terminal-columns.js';

/** An answer in plain words, the first sentence first of all. */
export interface Answer {
  readonly sentences: readonly string[];
  /** False where the answer leaves something open. */
  readonly decided: boolean;
}

/** The box at the head of a page that gives a study's answer. */
export function answerBox(answer: Answer, warnings: readonly string[]): string {
  return verdictBox({
    label: 'Answer',
    decided: answer.decided,
    sentences: answer.sentences.map((sentence) => html(unbroken(sentence))),
    warnings,
  });
}

/** A titled table of the terminal; in one too narrow for it every cell stands on a line of its own. */
export interface TerminalTable {
  readonly title: string;
  readonly table: Table;
}

/** Text for the terminal: what was run, its tables, warnings, and the answer last. */
export function answerText(
  parts: {
    readonly record: StudyRecord<string>;
    /** What was run, such as `8000 campaigns`. */
    readonly run: string;
    readonly tables: readonly TerminalTable[];
    readonly warnings: readonly string[];
    readonly answer: Answer;
  },
  styles: Styles,
  columns = PAGE_WIDTH,
): string {
  const width = Math.min(columns, PAGE_WIDTH);
  const { scenario, seed } = parts.record;
  const head = `${numberText(scenario.images)} images, ${parts.run}, seed ${plainText(seed)}`;
  const [first = '', ...rest] = parts.answer.sentences.map((sentence) => wrapped(plainText(sentence), width));
  return `${[
    styles.strong(wrapped(plainText(scenario.title), width)),
    styles.quiet(wrapped(head, width)),
    ...parts.tables.map(
      ({ title, table }) => `${styles.strong(wrapped(plainText(title), width))}\n${drawn(table, width)}`,
    ),
    ...parts.warnings.map((warning) => styles.warning(wrapped(`Warning: ${plainText(warning)}`, width))),
    [parts.answer.decided ? styles.strong(first) : styles.warning(first), ...rest].join('\n'),
  ].join('\n\n')}\n`;
}

function drawn(table: Table, width: number): string {
  const rows = table.rows.map((row) => row.map((cell) => spaced(plainText(cell))));
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
