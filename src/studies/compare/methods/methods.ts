import type { Summary } from '../../../analysis/results.js';
import { ALWAYS, cautionsFor } from '../../../report/cautions.js';
import { csv } from '../../../report/csv.js';
import { markdownTable, type Table } from '../../../report/table.js';
import { againParts } from '../../../report/study-facts.js';
import { markdown, plainText } from '../../../report/text.js';
import { HEADLINE_NOTE, headlineColumns } from '../page/headline.js';
import { origin } from '../page/assumptions.js';
import { SECTIONS } from './items.js';

/** `methods.md`: the verdict, then every item of a guideline for reports of simulation studies, in CommonMark. */
export function methodsText(summary: Summary): string {
  const parts = [
    `# ${markdown(summary.scenario.title)}: methods`,
    markdown(
      [
        ...summary.verdict.headline,
        ...(summary.verdict.inconclusive === null ? [] : [summary.verdict.inconclusive]),
        ...summary.verdict.remarks,
      ].join(' '),
    ),
    markdownTable(headlineTable(summary)),
    markdown(HEADLINE_NOTE),
    ...(summary.warnings.length === 0 ? [] : [points(summary.warnings.map((text) => `Warning: ${text}`))]),
    'The items below follow STRESS-DES (Monks and others, Journal of Simulation 13, 2019), in its order.',
    ...SECTIONS.flatMap(({ title, items }, place) => [
      `## ${place + 1} ${title}`,
      ...items.flatMap((item) => {
        const texts = item.text(summary);
        return [`### ${item.number} ${item.title}`, texts.length === 1 ? markdown(texts[0]) : points(texts)];
      }),
    ]),
    ...againParts(summary),
    '## Usual cautions',
    points([
      ALWAYS,
      ...cautionsFor(summary.scenario.cautions).map(({ title, text, source }) => `${title}: ${text} (${source})`),
    ]),
  ];
  return `${parts.join('\n\n')}\n`;
}

/** `inputs.csv`: every value with its unit, plausible range and source. */
export function inputsCsv({ assumptions }: Summary): string {
  return csv([
    ['path', 'description', 'value', 'plausible range', 'provenance', 'source or note'],
    ...assumptions.map((entry) => [
      ...[entry.path, entry.description, entry.value, entry.range ?? '', entry.standing, origin(entry)].map(plainText),
    ]),
  ]);
}

function points(texts: readonly string[]): string {
  return texts.map((text) => `- ${markdown(text)}`).join('\n');
}

function headlineTable(summary: Summary): Table {
  const columns = headlineColumns(summary);
  return {
    columns: [{ label: 'Strategy' }, ...columns.map(({ label }) => ({ label, numeric: true }))],
    rows: summary.strategies.map((strategy, place) => [
      strategy.name,
      ...columns.map(({ cells }) => {
        const { value, interval } = cells[place];
        return interval === '' ? value : `${value} (${interval})`;
      }),
    ]),
  };
}
