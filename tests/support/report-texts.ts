import type { ComparisonResult } from '../../src/analysis/results.js';
import type { Draw } from '../../src/report/pictures.js';
import { type Report, reportFiles } from '../../src/report/report.js';
import { comparisonReport } from '../../src/studies/compare/report.js';

/** All files of a study's report, each as one text. */
export async function textsOf<Result>(
  report: Report<Result>,
  result: Result,
  draw?: Draw | null,
): Promise<Map<string, string>> {
  const files = await reportFiles(report, result, draw);
  return new Map(Array.from(files, ([name, content]) => [name, wholeText(content)]));
}

export function reportTexts(result: ComparisonResult): Promise<Map<string, string>> {
  return textsOf(comparisonReport, result);
}

export function wholeText(content: string | Iterable<string>): string {
  return typeof content === 'string' ? content : [...content].join('');
}
