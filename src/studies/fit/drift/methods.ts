import type { DriftFitSummary } from './results.js';
import { ALWAYS } from '../../../report/cautions.js';
import { againParts } from '../../../report/study-facts.js';
import { markdown } from '../../../report/text.js';
import { titled } from '../methods.js';
import { rowsTable } from '../tables.js';
import { driftCitation, driftFacts, DRIFT_INTRO } from './method.js';
import { driftTable, settledTable } from './tables.js';
import { driftAnswer } from './words.js';

/** `methods.md` of a fit of drift, in CommonMark with tables. */
export function driftMethods(summary: DriftFitSummary): string {
  const { log, kinds } = summary;
  const { headline, findings, remarks } = driftAnswer(summary);
  const plain = (text: string) => markdown(text.replaceAll('`', ''));
  const warnings = [...summary.warnings, ...kinds.flatMap((fit) => fit.warnings)];
  const parts = [
    `# ${markdown(`Drift in ${log.file}`)}: methods`,
    ...[...headline, ...findings, ...remarks, DRIFT_INTRO].map(plain),
    ...(warnings.length === 0 ? [] : ['## Warnings', warnings.map((text) => `- ${plain(text)}`).join('\n')]),
    ...titled('What was fitted', driftTable(summary)),
    ...titled('After the settling time', settledTable(summary)),
    ...titled('Rows that could not be used', rowsTable(log)),
    '## How it was computed',
    driftFacts(summary)
      .map(([name, text]) => `- ${name}: ${markdown(text)}`)
      .join('\n'),
    '## Usual cautions',
    `- ${markdown(ALWAYS)}`,
    ...againParts(summary),
    driftCitation(summary, markdown),
  ];
  return `${parts.join('\n\n')}\n`;
}
