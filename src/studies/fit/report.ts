import { prettyJson } from '../../report/json.js';
import { chartList, type Report } from '../../report/report.js';
import { plainLines } from '../../report/text.js';
import { hazardBlock } from './block.js';
import { FIT_CHARTS } from './charts/index.js';
import { fitMethods } from './methods.js';
import { fitPage } from './page.js';
import type { FitSummary } from './results.js';
import { fitText } from './terminal.js';

/** The report on a log of tips. */
export const fitReport: Report<FitSummary> = {
  charts: (summary) => [chartList(FIT_CHARTS, summary)],
  page: (summary, [figures]) => fitPage(summary, figures, hazards(summary)),
  text: (summary, styles, columns, isVerbose) => fitText(summary, hazards(summary), styles, columns, isVerbose),
  json: prettyJson,
  files: { 'methods.md': fitMethods, 'hazards.yaml': hazards },
};

function hazards(summary: FitSummary): string {
  return plainLines(hazardBlock(summary));
}
