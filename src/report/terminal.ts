import type { Difference, Summary } from '../study/results.js';
import { differences } from './charts/differences.js';
import { numberText, SHARE } from './format.js';
import { leadTimeSentences } from './lead-time.js';
import { headlineColumns } from './page/headline.js';
import { block, fits, PAGE_WIDTH, spaced, wrapped } from './terminal-columns.js';
import { unknownText } from './terminal-unknown.js';
import { plainText, uniqueLabels } from './text.js';

/** How parts of the text are set off; by default they are not. The command line hands in styles for a terminal. */
export interface Styles {
  readonly strong: (text: string) => string;
  readonly quiet: (text: string) => string;
  readonly warning: (text: string) => string;
}

const same = (text: string): string => text;
const NONE: Styles = { strong: same, quiet: same, warning: same };

/**
 * Text for the terminal: the answer at a glance, results, paired differences, verdict. The last lines are the verdict.
 * @param columns width of the terminal; no line is longer than it or 100, whichever is less
 */
export function terminalText(summary: Summary, styles: Styles = NONE, columns = PAGE_WIDTH): string {
  const width = Math.min(columns, PAGE_WIDTH);
  const parts = [
    styles.strong(wrapped(plainText(summary.scenario.title), width)),
    styles.quiet(
      wrapped(
        `${numberText(summary.scenario.images)} images, ${numberText(summary.replications)} replications, seed ${plainText(summary.seed)}, means with ${numberText(summary.confidence.level, SHARE)} intervals`,
        width,
      ),
    ),
    glance(summary, styles, width),
    results(summary, width),
    ...leadTimeSentences(summary.strategies).map((sentence) => wrapped(plainText(sentence), width)),
    ...(summary.differences.length === 0 ? [] : [paired(summary, strategyNames(summary), styles, width)]),
    ...(summary.notKnowing === null
      ? []
      : [unknownText({ ...summary, notKnowing: summary.notKnowing }, strategyNames(summary), width)]),
    ...summary.warnings.map((warning) => styles.warning(wrapped(`Warning: ${plainText(warning)}`, width))),
    verdict(summary, styles, width),
  ];
  return `${parts.join('\n\n')}\n`;
}

/** Characters of a name; a longer one is cut. */
const LONGEST_NAME = 40;

const SHORT: Readonly<Partial<Record<string, string>>> = {
  'Instrument time': 'instrument\ntime',
  'Operator time': 'operator\ntime',
  Yield: 'yield',
  'Undetected bad share': 'undetect.\nbad',
  'Apparent yield': 'apparent\nyield',
  Tips: 'tips',
  Cost: 'cost',
  'Ever finished': 'ever\nfinished',
  'Finished in time': 'in granted\ntime',
};

/** The most generous of these layouts that is no wider than the page; if none is, a line for each measure. */
const LAYOUTS = [
  { names: 20, gap: 2 },
  { names: 14, gap: 2 },
  { names: 10, gap: 2 },
  { names: 10, gap: 1 },
];

function results(summary: Summary, width: number): string {
  const columns = headlineColumns(summary);
  const drawn = LAYOUTS.map(({ names, gap }) => {
    const rows = strategyNames(summary).map((name, place) => [
      `${wrapped(name, names)}\n  ${summary.strategies[place].workflow}`,
      ...columns.map(({ cells }) => {
        const { value, interval } = cells[place];
        return `${spaced(value)}\n${spaced(interval).replace(' to ', '\u2013')}`;
      }),
    ]);
    return block(['strategy', ...columns.map(({ label }) => SHORT[label] ?? label)], rows, 1, gap);
  });
  return drawn.find((text) => fits(text, width)) ?? stacked(summary);
}

function stacked(summary: Summary): string {
  const columns = headlineColumns(summary);
  const rows = strategyNames(summary).flatMap((name, place) => [
    [`${name} (${summary.strategies[place].workflow})`],
    ...columns.map(({ label, cells }) => [
      `  ${label.toLowerCase()}`,
      spaced(cells[place].value),
      spaced(cells[place].interval),
    ]),
  ]);
  return block(['strategy', 'mean', 'interval'], rows, 1, 2);
}

function strategyNames(summary: Summary): readonly string[] {
  return uniqueLabels(
    summary.strategies.map((strategy) => strategy.name),
    LONGEST_NAME,
  );
}

/** What stands of a relative difference, from the widest page to the narrowest. */
const RELATIVE: readonly ((text: string) => readonly string[])[] = [
  (text) => [spaced(text)],
  (text) => [spaced(text).replace(/ \(.*/, '')],
  () => [],
];

function paired(summary: Summary, names: readonly string[], styles: Styles, width: number): string {
  const { rows } = differences.table(summary);
  const told: readonly Difference['verdict'][] = ['more', 'less'];
  const drawn = RELATIVE.map((relativeCells) => {
    const lines = names
      .slice(1)
      .flatMap((name, place) => [
        [name],
        ...rows
          .filter(([strategy]) => strategy === summary.strategies[place + 1].name)
          .map(([, measure, absolute, relative, verdict]) => [
            `  ${measure}`,
            spaced(absolute),
            ...relativeCells(relative),
            told.some((each) => each === verdict) ? verdict : styles.quiet(verdict),
          ]),
      ]);
    return block(['strategy', 'difference', ...relativeCells('of its mean'), ''], lines, 1, 2);
  });
  const title = `Paired differences from ${names[0]}, joint ${numberText(summary.confidence.level, SHARE)} intervals`;
  return `${styles.strong(wrapped(title, width))}\n${drawn.find((text) => fits(text, width)) ?? drawn[drawn.length - 1]}`;
}

function glance({ verdict: { glance: said, decided } }: Summary, styles: Styles, width: number): string {
  const [first, ...rest] = said.map((sentence) => wrapped(plainText(sentence), width));
  return [decided ? styles.strong(first) : styles.warning(first), ...rest].join('\n');
}

function verdict(summary: Summary, styles: Styles, width: number): string {
  const [first, ...rest] = summary.verdict.sentences.map((sentence) => wrapped(plainText(sentence), width));
  const head = summary.verdict.decided ? styles.strong(first) : styles.warning(first);
  return [head, ...rest].join('\n');
}
