import type { FitSummary } from './results.js';
import { ALWAYS } from '../../report/cautions.js';
import { markdownTable, type Table } from '../../report/table.js';
import { againParts } from '../../report/study-facts.js';
import { markdown } from '../../report/text.js';
import { citation, fitFacts, INTRO } from './method.js';
import { accelerationTable, bluntingTable, fitsTable, logNextTable, rowsTable, suspicionTable } from './tables.js';
import { allCauses, causeTitle, fitAnswer } from './report-words.js';

/** `methods.md` of a fit: what was found and how, for a proposal, in CommonMark with tables. */
export function fitMethods(summary: FitSummary): string {
  const { headline, findings, remarks } = fitAnswer(summary);
  const notes = allCauses(summary).flatMap((fit) =>
    [fit.verdict, ...fit.warnings].map((text) => `- ${markdown(`${causeTitle(fit)}: ${text.replaceAll('`', '')}`)}`),
  );
  const parts = [
    `# ${markdown(`Tip lifetimes in ${summary.log.file}`)}: methods`,
    markdown([...headline, ...findings, ...remarks, INTRO].join(' ').replaceAll('`', '')),
    ...(summary.warnings.length === 0
      ? []
      : ['## Warnings', summary.warnings.map((text) => `- ${markdown(text.replaceAll('`', ''))}`).join('\n')]),
    ...titled('Hazards', fitsTable(summary)),
    ...(notes.length === 0 ? [] : [notes.join('\n')]),
    ...titled('What load and pace do', accelerationTable(summary)),
    ...titled('Taken off on suspicion: both bounds', suspicionTable(summary)),
    ...titled('Blunting from measured radii', bluntingTable(summary)),
    ...titled('What to log next', logNextTable(summary)),
    ...titled('Rows that could not be used', rowsTable(summary.log)),
    '## How it was computed',
    fitFacts(summary)
      .map(([name, text]) => `- ${name}: ${markdown(text)}`)
      .join('\n'),
    '## Usual cautions',
    `- ${markdown(ALWAYS)}`,
    ...againParts(summary),
    citation(summary, markdown),
  ];
  return `${parts.join('\n\n')}\n`;
}

/** Nothing where the table has no rows. */
export function titled(title: string, table: Table): readonly string[] {
  return table.rows.length === 0 ? [] : [`## ${title}`, markdownTable(table)];
}
