import { matters } from '../../analysis/interest.js';
import type { Summary } from '../../analysis/results.js';
import { NO_STYLES, type Styles } from '../../report/styles.js';
import { differences } from './charts/differences.js';
import { numberText, plainSpaces, SHARE } from '../../wording/numbers.js';
import { leadTimeSentences } from '../../report/lead-time.js';
import { furtherTable, headlineColumns } from './page/headline.js';
import { reversalsTable } from './page/verdict.js';
import type { Table } from '../../report/table.js';
import { block, fits, PAGE_WIDTH, tableText, wrapped } from '../../report/terminal-columns.js';
import { unknownText } from './terminal-unknown.js';
import { plainText, shortened, uniqueLabels } from '../../report/text.js';

/**
 * Text for the terminal: what was run, and the verdict with its table.
 * @param columns width of the terminal; no line is longer than it or 100, whichever is less
 * @param isVerbose whether everything that stands below the verdict is shown too
 */
export function terminalText(
  summary: Summary,
  styles: Styles = NO_STYLES,
  columns = PAGE_WIDTH,
  isVerbose = false,
): string {
  const width = Math.min(columns, PAGE_WIDTH);
  const { scenario, verdict, replications, seed, confidence, allocation } = summary;
  const granted = allocation === null ? '' : `${allocation.text} granted, `;
  const about = `${numberText(scenario.images)} images, ${granted}${numberText(replications)} replications, seed ${plainText(seed)}, means with ${numberText(confidence.level, SHARE)} intervals`;
  const said = (sentences: readonly string[]) => sentences.map((sentence) => wrapped(plainText(sentence), width));
  const remarks = said([...verdict.remarks, ...leadTimeSentences(summary.strategies)]);
  const parts = [
    `${styles.strong(wrapped(plainText(scenario.title), width))}\n${styles.quiet(wrapped(about, width))}`,
    said(verdict.headline).map(styles.strong).join('\n'),
    results(summary, width),
    [
      ...(verdict.inconclusive === null ? [] : [styles.warning(wrapped(plainText(verdict.inconclusive), width))]),
      ...remarks,
    ].join('\n'),
    ...summary.warnings.map((warning) => styles.warning(wrapped(`Warning: ${plainText(warning)}`, width))),
    ...(isVerbose ? below(summary, styles, width) : []),
  ];
  return `${parts.filter((part) => part !== '').join('\n\n')}\n`;
}

/** Everything below the verdict. */
function below(summary: Summary, styles: Styles, width: number): readonly string[] {
  const titled = (title: string, table: Table): readonly string[] =>
    table.rows.length === 0 ? [] : [`${styles.strong(wrapped(title, width))}\n${tableText(table, width)}`];
  const { parameterUncertainty, verdict, strategies, confidence } = summary;
  const level = numberText(confidence.level, SHARE);
  return [
    verdict.findings.map((sentence) => wrapped(plainText(sentence), width)).join('\n'),
    ...(summary.differences.length === 0
      ? []
      : titled(`Paired differences from ${plainText(strategies[0].name)}, joint ${level} intervals`, paired(summary))),
    ...titled('Where differences reverse or weaken', shortReversals(summary)),
    ...(parameterUncertainty === null
      ? []
      : [unknownText({ ...summary, parameterUncertainty }, strategyNames(summary), width)]),
    ...titled('Further measures', furtherTable(summary)),
  ];
}

/** The same as below the chart, without percentages. */
function paired(summary: Summary): Table {
  const { columns, rows } = differences.table(summary);
  const [strategy, measure, difference, , verdict] = columns;
  return {
    columns: [strategy, measure, difference, verdict],
    rows: rows.map(([name, what, absolute, , word]) => [shortened(name, SHORT_NAME), what, absolute, word]),
  };
}

/** The same as on the page, without what stands in the table of assumptions. */
function shortReversals(summary: Summary): Table {
  const { columns, rows } = reversalsTable(summary);
  const [value, , , at, strategy, measure, there] = columns;
  return {
    columns: [value, at, strategy, measure, there],
    rows: rows.map(([name, , , limit, of, what, cell]) => [
      shortened(name, SHORT_VALUE),
      limit,
      shortened(of, SHORT_NAME),
      what,
      cell.replace(/:.*/u, ''),
    ]),
  };
}

/** Characters of a name; a longer one is cut. */
const LONGEST_NAME = 40;
const SHORT_NAME = 16;
const SHORT_VALUE = 36;

/** The most generous of these layouts that is no wider than the page; if none is, a line for each measure. */
const LAYOUTS = [
  { names: 20, gap: 2, intervals: true },
  { names: 12, gap: 2, intervals: true },
  { names: 20, gap: 1, intervals: false },
];

/** More strategies are shown without intervals, a line each. */
const MOST_WITH_INTERVALS = 4;

function results(summary: Summary, width: number): string {
  const columns = headlineColumns(summary);
  const layouts = LAYOUTS.filter(({ intervals }) => !intervals || summary.strategies.length <= MOST_WITH_INTERVALS);
  const drawn = layouts.map(({ names, gap, intervals }) => {
    const rows = strategyNames(summary).map((name, place) => [
      intervals ? wrapped(name, names) : name,
      ...columns.map(({ cells }) => {
        const { value, interval, mark, isBest } = cells[place];
        const marked = `${plainSpaces(value)}${mark === '' && !isBest ? '' : ` ${mark}${isBest ? '*' : ''}`}`;
        return intervals ? `${marked}\n${plainSpaces(interval).replace(' to ', '\u2013')}` : marked;
      }),
    ]);
    return block(['\nstrategy', ...columns.map(({ short }) => short.join('\n'))], rows, 1, gap);
  });
  const table = drawn.find((text) => fits(text, width)) ?? stacked(summary);
  return summary.differences.some(matters)
    ? `${table}\n${wrapped(`↑ ↓ clear difference from ${plainText(summary.strategies[0].name)} that matters, * best mean`, width)}`
    : table;
}

function stacked(summary: Summary): string {
  const columns = headlineColumns(summary);
  const rows = strategyNames(summary).flatMap((name, place) => [
    [`${name} (${summary.strategies[place].workflow})`],
    ...columns.map(({ label, cells }) => [
      `  ${label.toLowerCase()}`,
      plainSpaces(cells[place].value),
      plainSpaces(cells[place].interval),
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
