import type { Summary } from '../study/results.js';
import { ALWAYS, cautionsFor } from './cautions.js';
import { differences } from './charts/differences.js';
import { imagesText, numberText, SHARE, workScale } from './format.js';
import { HEADLINE_NOTE, headlineColumns } from './page/headline.js';
import { methodFacts } from './page/method.js';
import { differencesTable, drawnText, LOG_NEXT_NOTE, logNextTable } from './page/not-knowing.js';
import { origin } from './page/register.js';
import { turnText } from './page/verdict.js';
import { markdownTable, type Table } from './table.js';
import { againParts } from './study-facts.js';
import { listed, markdown } from './text.js';

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

/** The paragraph that a proposal needs: what was planned, compared and found, and how sure that is. */
function paragraph(summary: Summary): string {
  const { scenario } = summary;
  const names = listed(summary.strategies.map((strategy) => `“${strategy.name}”`));
  const level = numberText(summary.confidence.level, SHARE);
  return [
    `The plan has ${imagesText(scenario.images, scenario.regions, scenario.samples.length)} (passes: ${listed(scenario.passes)}; ${scenario.order}),`,
    `${numberText(scenario.scanTime, workScale(scenario.scanTime))} of scanning and ${numberText(scenario.slidingPath, { divisor: 1, unit: 'mm' })} of sliding path if every image is taken once.`,
    `Times, yield, tips and cost were estimated for ${names} with ${summary.tool.name} ${summary.tool.version},`,
    `a discrete-event simulation, in ${numberText(summary.replications)} replications of each with common random numbers (seed ${summary.seed}).`,
    `Intervals are ${level}; differences are paired${summary.confidence.comparisons > 1 ? ', their intervals joint (Bonferroni)' : ''}.`,
    ...summary.verdict.sentences,
  ].join(' ');
}

/** `methods.md`: paragraph, tables and assumptions for a proposal, in CommonMark with tables. */
export function methodsText(summary: Summary): string {
  const assumed = summary.register.filter((entry) => entry.standing === 'assumed');
  const sourced = summary.register.filter((entry) => entry.source !== null);
  const turns = summary.verdict.turns.map((turn) => `- ${markdown(`${turn.path}: ${turnText(turn, summary)}`)}`);
  const parts = [
    `# ${markdown(summary.scenario.title)}: methods`,
    markdown(paragraph(summary)),
    ...(turns.length === 0 ? [] : ['## What reverses or weakens a difference', turns.join('\n')]),
    ...(summary.warnings.length === 0
      ? []
      : ['## Warnings', summary.warnings.map((text) => `- ${markdown(text)}`).join('\n')]),
    '## Results',
    markdownTable(headlineTable(summary)),
    markdown(HEADLINE_NOTE + (summary.allocation === null ? '' : ` Granted time: ${summary.allocation.text}.`)),
    ...(summary.differences.length === 0
      ? []
      : [
          `## Paired differences from ${markdown(`“${summary.strategies[0].name}”`)}`,
          markdownTable(differences.table(summary)),
        ]),
    ...unknownParts(summary),
    '## How it was computed',
    methodFacts(summary)
      .map(([name, text]) => `- ${name}: ${markdown(text)}`)
      .join('\n'),
    `## Assumed (${String(assumed.length)} of ${String(summary.register.length)} values)`,
    assumed.length === 0
      ? 'Nothing: every value that is not chosen has a source.'
      : markdownTable({
          columns: [{ label: 'What' }, { label: 'Path' }, { label: 'Value' }, { label: 'Range' }],
          rows: assumed.map((entry) => [entry.description, entry.path, entry.value, entry.range ?? '']),
        }),
    ...(sourced.length === 0
      ? []
      : [
          '## Values with a source',
          markdownTable({
            columns: [{ label: 'What' }, { label: 'Value' }, { label: 'Source' }],
            rows: sourced.map((entry) => [entry.description, entry.value, origin(entry)]),
          }),
        ]),
    '## Usual cautions',
    [
      `- ${markdown(ALWAYS)}`,
      ...cautionsFor(summary.scenario.cautions).map(
        (caution) => `- ${markdown(`${caution.title}: ${caution.text} (${caution.source})`)}`,
      ),
    ].join('\n'),
    ...againParts(summary),
  ];
  return `${parts.join('\n\n')}\n`;
}

/** What is not known, where the scenario says so of something. */
function unknownParts(summary: Summary): readonly string[] {
  const { notKnowing } = summary;
  if (notKnowing === null) return [];
  const known = { ...summary, notKnowing };
  return [
    '## What is luck, and what is not knowing',
    markdown(drawnText(known)),
    ...(notKnowing.differences.length === 0 ? [] : [markdownTable(differencesTable(known))]),
    markdown(LOG_NEXT_NOTE),
    markdownTable(logNextTable(known)),
  ];
}
