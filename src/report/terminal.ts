import Table from 'cli-table3';
import type { Difference, Summary } from '../study/results.js';
import { differences } from './charts/differences.js';
import { numberText, SHARE } from './format.js';
import { headlineColumns } from './page/headline.js';
import { plainText, uniqueLabels } from './text.js';

/** How parts of the text are set off; by default they are not. The command line hands in styles for a terminal. */
export interface Styles {
  readonly strong: (text: string) => string;
  readonly quiet: (text: string) => string;
  readonly warning: (text: string) => string;
}

const same = (text: string): string => text;
const NONE: Styles = { strong: same, quiet: same, warning: same };

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
  middle: '  ',
};

/** A narrow no-break space and its like take one column in some terminals and none in others. */
function spaced(text: string): string {
  return text.replace(/[\u00a0\u202f]/g, ' ');
}

function block(head: readonly string[], rows: readonly (readonly string[])[], left: number): string {
  const table = new Table({
    chars: LINES,
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
  const names = uniqueLabels(
    summary.strategies.map((strategy) => strategy.name),
    20,
  );
  const parts = [
    styles.strong(plainText(summary.scenario.title)),
    styles.quiet(
      spaced(
        `${numberText(summary.scenario.images)} images, ${numberText(summary.replications)} replications, seed ${plainText(summary.seed)}, ${numberText(summary.confidence.level, SHARE)} intervals below each mean`,
      ),
    ),
    results(summary, names),
    ...(summary.differences.length === 0 ? [] : [paired(summary, names, styles)]),
    ...summary.warnings.map((warning) => styles.warning(`Warning: ${plainText(warning)}`)),
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

function results(summary: Summary, names: readonly string[]): string {
  const columns = headlineColumns(summary);
  const rows = names.flatMap((name, place) => {
    const kind = summary.strategies[place].workflow;
    return [
      [name, ...columns.map(({ cells }) => spaced(cells[place].value))],
      [`  ${kind}`, ...columns.map(({ cells }) => spaced(cells[place].interval).replace(' to ', '\u2013'))],
    ];
  });
  return block(['strategy', ...columns.map(({ label }) => SHORT[label] ?? label)], rows, 1);
}

function paired(summary: Summary, names: readonly string[], styles: Styles): string {
  const { rows } = differences.table(summary);
  const shortName = new Map(summary.strategies.map((strategy, place) => [strategy.name, names[place]]));
  const verdicts: readonly Difference['verdict'][] = ['more', 'less'];
  const lines = rows.map(([strategy, measure, absolute, relative, told]) => [
    shortName.get(strategy) ?? plainText(strategy),
    measure,
    spaced(absolute),
    spaced(relative),
    verdicts.some((each) => each === told) ? told : styles.quiet(told),
  ]);
  const title = `Paired differences from ${names[0]}, intervals widened for ${String(summary.confidence.comparisons)} comparisons`;
  return `${styles.strong(title)}\n${block(['strategy', 'measure', 'difference', 'of its mean', ''], lines, 2)}`;
}

function verdict(summary: Summary, styles: Styles): string {
  const [first, ...rest] = summary.verdict.sentences
    .map(plainText)
    .flatMap((sentence) => (sentence === '' ? [] : [sentence]));
  const head = summary.verdict.decided ? styles.strong(first) : styles.warning(first);
  return [head, ...rest].join('\n');
}
