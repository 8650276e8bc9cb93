import type { ComparisonResult } from '../../analysis/results.js';
import { imagesCsv, replicationsCsv } from '../../report/csv.js';
import { summaryJson } from '../../report/json.js';
import { chartList, type Report } from '../../report/report.js';
import { CHARTS, NOT_KNOWING_CHARTS } from './charts/index.js';
import type { Known } from './charts/parameter-uncertainty.js';
import { inputsCsv, methodsText } from './methods/methods.js';
import { briefPage, reportPage } from './page.js';
import { uncertaintySection } from './page/parameter-uncertainty.js';
import { terminalText } from './terminal.js';

export const comparisonReport: Report<ComparisonResult> = {
  charts: ({ summary }) => [
    chartList(CHARTS, summary),
    ...knownOf(summary).map((known) => chartList(NOT_KNOWING_CHARTS, known)),
  ],
  page: ({ summary }, [figures, unknown], isWhole) =>
    reportPage(summary, {
      figures,
      unknown: knownOf(summary).map((known) => uncertaintySection(known, unknown)),
      isWhole,
    }),
  text: ({ summary }, styles, columns, isVerbose) => terminalText(summary, styles, columns, isVerbose),
  json: ({ summary }) => summaryJson(summary),
  files: {
    'brief.html': ({ summary }) => briefPage(summary),
    'images.csv': ({ summary }) => imagesCsv(summary),
    'inputs.csv': ({ summary }) => inputsCsv(summary),
    'methods.md': ({ summary }) => methodsText(summary),
    // A row of each replication takes long.
    'replications.csv': (result, isWhole) => (isWhole ? replicationsCsv(result) : null),
  },
};

/** The summary where the scenario says of something how far it is known; else nothing. */
function knownOf(summary: ComparisonResult['summary']): readonly Known[] {
  const { parameterUncertainty } = summary;
  return parameterUncertainty === null ? [] : [{ ...summary, parameterUncertainty }];
}
