import Table from 'cli-table3';
import type { Difference, Summary } from '../study/results.js';
import { differences } from './charts/differences.js';
import { numberText, SHARE } from './format.js';
import { headlineColumns } from './page/headline.js';
import { graphemes, plainText, uniqueLabels } from './text.js';

/** How parts of the text are set off; by default they are not. The command line hands in styles for a terminal. */
export interface Styles {
  readonly strong: (text: string) => string;
  readonly quiet: (text: string) => string;
  readonly warning: (text: string) => string;
}

const same = (text: string): string => text;
const NONE: Styles = { strong: same, quiet: same, warning: same };

const PAGE_WIDTH = 100;

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
function spaced(text: string): string {
  return text.replace(/[\u00a0\u202f]/g, ' ');
}

function block(head: readonly string[], rows: readonly (readonly string[])[], left: number, gap: number): string {
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

/** Text for the terminal: results, paired differences, verdict. At most 100 columns; the last lines are the verdict. */
export function terminalText(summary: Summary, styles: Styles = NONE): string {
  const parts = [
    styles.strong(plainText(summary.scenario.title)),
    styles.quiet(
      spaced(
        `${numberText(summary.scenario.images)} images, ${numberText(summary.replications)} replications, seed ${plainText(summary.seed)}, ${numberText(summary.confidence.level, SHARE)} intervals below each mean`,
      ),
    ),
    results(summary),
    ...(summary.differences.length === 0 ? [] : [paired(summary, strategyNames(summary, 40), styles)]),
    ...summary.warnings.map((warning) => styles.warning(wrapped(`Warning: ${plainText(warning)}`))),
    verdict(summary, styles),
  ];
  return `${parts.join('\n\n')}\n`;
}

const SHORT: Readonly<Partial<Record<string, string>>> = {
  'Instrument time': 'instrument\ntime',
  'Total time': 'total\ntime',
  Yield: 'yield',
  'Silent-bad share': 'silent\nbad',
  'Apparent yield': 'apparent\nyield',
  Tips: 'tips',
  Cost: 'cost',
  'Ever finished': 'ever\nfinished',
  'Finished in time': 'in granted\ntime',
};

/** The most generous of these layouts that is no wider than the page. */
const LAYOUTS = [
  { names: 20, gap: 2 },
  { names: 14, gap: 2 },
  { names: 10, gap: 2 },
  { names: 10, gap: 1 },
];

function results(summary: Summary): string {
  const columns = headlineColumns(summary);
  const drawn = LAYOUTS.map(({ names, gap }) => {
    const rows = strategyNames(summary, names).flatMap((name, place) => [
      [name, ...columns.map(({ cells }) => spaced(cells[place].value))],
      [
        `  ${summary.strategies[place].workflow}`,
        ...columns.map(({ cells }) => spaced(cells[place].interval).replace(' to ', '\u2013')),
      ],
    ]);
    return block(['strategy', ...columns.map(({ label }) => SHORT[label] ?? label)], rows, 1, gap);
  });
  const fits = drawn.find((text) => text.split('\n').every((line) => graphemes(line).length <= PAGE_WIDTH));
  return fits ?? drawn[drawn.length - 1];
}

function strategyNames(summary: Summary, length: number): readonly string[] {
  return uniqueLabels(
    summary.strategies.map((strategy) => strategy.name),
    length,
  );
}

function paired(summary: Summary, names: readonly string[], styles: Styles): string {
  const { rows } = differences.table(summary);
  const told: readonly Difference['verdict'][] = ['more', 'less'];
  const lines = names
    .slice(1)
    .flatMap((name, place) => [
      [name],
      ...rows
        .filter(([strategy]) => strategy === summary.strategies[place + 1].name)
        .map(([, measure, absolute, relative, verdict]) => [
          `  ${measure}`,
          spaced(absolute),
          spaced(relative),
          told.some((each) => each === verdict) ? verdict : styles.quiet(verdict),
        ]),
    ]);
  const title = `Paired differences from ${names[0]}, intervals widened for ${String(summary.confidence.comparisons)} comparisons`;
  return `${styles.strong(title)}\n${block(['strategy', 'difference', 'of its mean', ''], lines, 1, 2)}`;
}

function verdict(summary: Summary, styles: Styles): string {
  const [first, ...rest] = summary.verdict.sentences.map((sentence) => wrapped(plainText(sentence)));
  const head = summary.verdict.decided ? styles.strong(first) : styles.warning(first);
  return [head, ...rest].join('\n');
}

/** Broken at spaces into lines no wider than the page; a longer word stands alone. */
function wrapped(text: string): string {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && graphemes(`${line} ${word}`).length > PAGE_WIDTH) {
      lines.push(line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  return [...lines, line].join('\n');
}
