/** All files of a report on a log, by name. Nothing is written here. */

import { hazardBlock } from '../../study/fit/block.js';
import type { FitSummary } from '../../study/fit/results.js';
import { prettyJson } from '../json.js';
import { drawCharts } from '../pictures.js';
import { plainLines } from '../text.js';
import { FIT_CHARTS } from './charts/index.js';
import { fitMethods } from './methods.js';
import { fitPage } from './page.js';

export { fitText } from './terminal.js';

/** Texts by their name inside the report's folder. The same result gives the same bytes. */
export async function fitFiles(summary: FitSummary): Promise<Map<string, string>> {
  const pictures = await drawCharts(FIT_CHARTS, summary);
  const hazards = plainLines(hazardBlock(summary));
  const files = new Map(pictures.files);
  files.set('report.html', fitPage(summary, pictures.figures, hazards));
  files.set('summary.json', prettyJson(summary));
  files.set('methods.md', fitMethods(summary));
  files.set('hazards.yaml', hazards);
  return files;
}
