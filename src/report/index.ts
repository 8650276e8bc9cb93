/** All files of a report, by name. Nothing is written here. */

import type { ComparisonResult } from '../study/results.js';
import { CHARTS } from './charts/index.js';
import { imagesCsv, replicationsCsv } from './csv.js';
import { prettyJson, summaryJson } from './json.js';
import { methodsText } from './methods.js';
import { reportPage, type DrawnChart } from './page.js';
import { renderPicture } from './render.js';

export { summaryJson } from './json.js';
export { terminalText, type Styles } from './terminal.js';
export { traceLine, tracePage, traceText } from './trace.js';

export interface ReportContext {
  /** The command line that makes the same report again. */
  readonly command: string;
}

/**
 * Texts of a report by their name inside its folder, such as `charts/finish.svg`. The same result and command give the
 * same bytes. Throws only where a chart of ours is wrong.
 */
export async function reportFiles(result: ComparisonResult, context: ReportContext): Promise<Map<string, string>> {
  const { summary } = result;
  const files = new Map<string, string>();
  const drawn: DrawnChart[] = [];
  for (const chart of CHARTS) {
    const spec = chart.spec(summary);
    if (spec === null) {
      drawn.push({ chart, svg: null });
      continue;
    }
    const picture = await renderPicture(spec, {
      prefix: chart.id,
      title: chart.title,
      description: chart.alt(summary),
    });
    files.set(`charts/${chart.id}.vl.json`, prettyJson(spec));
    files.set(`charts/${chart.id}.svg`, picture.svg);
    drawn.push({ chart, svg: picture.svg });
  }
  files.set('report.html', reportPage(summary, drawn, context.command));
  files.set('summary.json', summaryJson(summary));
  files.set('images.csv', imagesCsv(summary));
  files.set('replications.csv', replicationsCsv(result));
  files.set('methods.md', methodsText(summary, context.command));
  return files;
}
