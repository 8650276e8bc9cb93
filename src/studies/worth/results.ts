/** What it is worth to know more before one chooses, as plain data. */

import type { StudyRecord } from '../../analysis/about.js';
import type { Answer } from '../../analysis/answer.js';
import type { WorthFound } from '../../analysis/worth/results.js';

export const WORTH_FORMAT = 'swap-or-hop worth';

export interface WorthSummary extends StudyRecord<typeof WORTH_FORMAT>, WorthFound {
  readonly confidence: { readonly level: number };
  readonly answer: Answer;
  readonly stopping: string;
  readonly warnings: readonly string[];
}
