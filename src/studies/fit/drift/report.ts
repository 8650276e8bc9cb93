import { prettyJson } from '../../../report/json.js';
import { chartList, type Report } from '../../../report/report.js';
import { plainLines } from '../../../report/text.js';
import { driftBlock } from '../block.js';
import { driftChart } from './chart.js';
import { driftMethods } from './methods.js';
import { driftPage } from './page.js';
import type { DriftFitSummary } from './results.js';
import { driftFitText } from './terminal.js';

/** The report on a table of drift. */
export const driftFitReport: Report<DriftFitSummary> = {
  charts: (summary) => [chartList([driftChart], summary)],
  page: (summary, [figures]) => driftPage(summary, figures, drift(summary)),
  text: (summary, styles, columns, isVerbose) => driftFitText(summary, drift(summary), styles, columns, isVerbose),
  json: prettyJson,
  files: { 'methods.md': driftMethods, 'drift.yaml': drift },
};

function drift(summary: DriftFitSummary): string {
  return plainLines(driftBlock(summary));
}
