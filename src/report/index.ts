/** All files of a report, by name. Nothing is written here. */

import type { ComparisonResult, Summary } from '../study/results.js';
import { CHARTS, NOT_KNOWING_CHARTS } from './charts/index.js';
import { imagesCsv, replicationsCsv } from './csv.js';
import { summaryJson } from './json.js';
import { methodsText } from './methods.js';
import { reportPage } from './page.js';
import { madeMeanwhile } from './meanwhile.js';
import { notKnowingSection } from './page/not-knowing.js';
import { type Draw, drawCharts } from './pictures.js';

export { terminalText, type Styles } from './terminal.js';
export { traceLine, tracePage, traceText } from './trace.js';

/**
 * All files of a report by their name inside its folder, such as `charts/finish.svg`; those that may be long in parts, which
 * are made as they are read, once. The same result gives the same bytes. Throws only where a chart of ours is wrong.
 * @param draw null where somebody waits: what takes long is then left out, pictures and the row of each replication
 */
export async function comparisonFiles(
  result: ComparisonResult,
  draw?: Draw | null,
): Promise<ReadonlyMap<string, string | Iterable<string>>> {
  const { summary } = result;
  const isWhole = draw !== null;
  const drawn = Promise.all([drawCharts(CHARTS, summary, draw), unknownPart(summary, draw)]);
  const rows = isWhole ? await madeMeanwhile(replicationsCsv(result), drawn) : null;
  const [pictures, unknown] = await drawn;
  return new Map<string, string | Iterable<string>>([
    ...pictures.files,
    ...unknown.files,
    ['report.html', reportPage(summary, { ...pictures, unknown: unknown.section, isWhole })],
    ['summary.json', summaryJson(summary)],
    ['images.csv', imagesCsv(summary)],
    ['methods.md', methodsText(summary)],
    ...(rows === null ? [] : [['replications.csv', rows] as const]),
  ]);
}

/** The part of the page on what is not known, with its charts; empty where the scenario says nothing of it. */
async function unknownPart(
  summary: Summary,
  draw: Draw | null | undefined,
): Promise<{ readonly files: ReadonlyMap<string, string>; readonly section: string }> {
  const { notKnowing } = summary;
  if (notKnowing === null) return { files: new Map(), section: '' };
  const known = { ...summary, notKnowing };
  const { files, figures } = await drawCharts(NOT_KNOWING_CHARTS, known, draw);
  return { files, section: notKnowingSection(known, figures) };
}
