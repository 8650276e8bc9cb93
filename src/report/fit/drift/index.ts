/** All files of a report on drift, by name. Nothing is written here. */

import { driftBlock } from '../../../study/fit/block.js';
import type { DriftFitSummary } from '../../../study/fit/drift/results.js';
import { prettyJson } from '../../json.js';
import { drawCharts } from '../../pictures.js';
import { plainLines } from '../../text.js';
import { driftChart } from './chart.js';
import { driftMethods } from './methods.js';
import { driftPage } from './page.js';

export { driftFitText } from './terminal.js';

/** Texts by their name inside the report's folder. The same result gives the same bytes. */
export async function driftFitFiles(summary: DriftFitSummary): Promise<Map<string, string>> {
  const pictures = await drawCharts([driftChart], summary);
  const drift = plainLines(driftBlock(summary));
  const files = new Map(pictures.files);
  files.set('report.html', driftPage(summary, pictures.figures, drift));
  files.set('summary.json', prettyJson(summary));
  files.set('methods.md', driftMethods(summary));
  files.set('drift.yaml', drift);
  return files;
}
