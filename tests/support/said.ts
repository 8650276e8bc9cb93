import type { Answer } from '../../src/analysis/answer.js';

/** All sentences of an answer, in the order in which they are read. */
export function said({ headline, findings, remarks }: Answer): readonly string[] {
  return [...headline, ...findings, ...remarks];
}
