import { comparisonFiles } from '../../src/report/index.js';
import type { ComparisonResult } from '../../src/study/results.js';

/** All files of a report, each as one text. */
export async function reportTexts(result: ComparisonResult): Promise<Map<string, string>> {
  const files = await comparisonFiles(result);
  return new Map(Array.from(files, ([name, content]) => [name, wholeText(content)]));
}

export function wholeText(content: string | Iterable<string>): string {
  return typeof content === 'string' ? content : [...content].join('');
}
