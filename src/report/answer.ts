import type { Answer } from '../analysis/answer.js';
import { counted, listed } from '../wording/phrases.js';
import { html, plainText, unbroken } from './text.js';
import { verdictBox } from './page/verdict.js';
import type { Table } from './table.js';
import type { Styles } from './styles.js';
import { PAGE_WIDTH, tableText, wrapped } from './terminal-columns.js';

/** The box at the head of a page that gives a study's answer. */
export function answerBox({ headline, decided }: Answer, warnings: readonly string[], label = 'Answer'): string {
  return verdictBox({
    label,
    decided,
    sentences: headline.map((sentence) => html(unbroken(sentence))),
    warnings,
  });
}

/** What must be said besides, and what else was found; nothing where there is neither. */
export function findingsSection({ remarks, findings }: Answer): string {
  const said = [...findings, ...remarks];
  if (said.length === 0) return '';
  return `<section aria-labelledby="findings">
<h2 id="findings">Findings</h2>
${said.map((sentence) => `<p>${html(unbroken(sentence))}</p>`).join('\n')}
</section>`;
}

/** A titled table of the terminal; in one too narrow for it every cell stands on a line of its own. */
export interface TerminalTable {
  readonly title: string;
  readonly table: Table;
  /** Rows follow an order of their own, so that of many some are shown from end to end; else the first ones. */
  readonly isAlong?: true;
}

/** What a terminal shows at a glance has at most so many lines. */
export const MOST_LINES = 25;

/** What a terminal shows of a study. */
export interface Told {
  readonly title: string;
  /** What was run, such as `40 images, 8000 campaigns, seed 1`. */
  readonly about: string;
  readonly answer: Answer;
  readonly tables: readonly TerminalTable[];
  readonly warnings: readonly string[];
}

/** Text for the terminal: what was run, the answer, as much of its tables as has room, and warnings; all that was found where that is asked for. */
export function answerText(told: Told, styles: Styles, columns = PAGE_WIDTH, isVerbose = false): string {
  const width = Math.min(columns, PAGE_WIDTH);
  const { answer } = told;
  const lines = (text: string) => wrapped(plainText(text), width);
  const style = answer.decided ? styles.strong : styles.warning;
  const above = [
    `${styles.strong(lines(told.title))}\n${styles.quiet(lines(told.about))}`,
    answer.headline.map((sentence) => style(lines(sentence))).join('\n'),
  ];
  const below = [
    answer.remarks.map(lines).join('\n'),
    told.warnings.map((warning) => styles.warning(lines(`Warning: ${warning}`))).join('\n'),
    isVerbose ? answer.findings.map(lines).join('\n') : '',
  ];
  const around = parted([...above, ...below]);
  const room = isVerbose ? Infinity : MOST_LINES - around.split('\n').length - 1;
  return `${parted([...above, ...tablesWithin(told.tables, room, styles, width), ...below])}\n`;
}

function parted(parts: readonly string[]): string {
  return parts.filter((part) => part !== '').join('\n\n');
}

/** A table is cut to no fewer rows, the first one only where so many have no room. */
const FEWEST_ROWS = 4;

/** As many tables as there is room for, the last of them cut; what is left out is named. */
function tablesWithin(
  tables: readonly TerminalTable[],
  room: number,
  styles: Styles,
  width: number,
): readonly string[] {
  const drawn: string[] = [];
  for (const [place, each] of tables.entries()) {
    const isLast = place === tables.length - 1;
    const left = room - heightOf(drawn) - (isLast ? 0 : 2);
    const rows = rowsWithin(each, left, styles, width);
    if (rows === null) {
      if (drawn.length === 0) return [titled(each, rowsWithin(each, left, styles, width, 1) ?? 1, styles, width)];
      const names = listed(tables.slice(place).map(({ title }) => title));
      return [...drawn, styles.quiet(wrapped(plainText(`With --verbose also: ${names}`), width))];
    }
    drawn.push(titled(each, rows, styles, width));
  }
  return drawn;
}

/** Lines of what is drawn, with an empty one behind each. */
function heightOf(drawn: readonly string[]): number {
  return drawn.reduce((sum, text) => sum + text.split('\n').length + 1, 0);
}

/** How many rows of a table have room; null where these are too few. */
function rowsWithin(
  each: TerminalTable,
  room: number,
  styles: Styles,
  width: number,
  fewest = FEWEST_ROWS,
): number | null {
  const all = each.table.rows.length;
  for (let rows = all; rows >= Math.min(all, fewest); rows -= 1)
    if (titled(each, rows, styles, width).split('\n').length <= room) return rows;
  return null;
}

function titled({ title, table, isAlong }: TerminalTable, most: number, styles: Styles, width: number): string {
  const rest = table.rows.length - most;
  const rows = rest <= 0 ? table.rows : isAlong === true ? thinned(table.rows, most) : table.rows.slice(0, most);
  const more = rest <= 0 ? '' : `; ${counted(rest, 'more row')} with --verbose`;
  return `${styles.strong(wrapped(plainText(title) + more, width))}\n${tableText({ ...table, rows }, width)}`;
}

/** So many of a list, evenly from its first to its last; of one only, the first. */
function thinned<Item>(items: readonly Item[], most: number): readonly Item[] {
  const apart = (items.length - 1) / Math.max(most - 1, 1);
  return Array.from({ length: most }, (_, place) => items[Math.round(place * apart)]);
}
