import { isInterrupted } from './interrupted.js';

/** What a study answers, in plain words. */
export interface Answer {
  /** Who or what, which way, by how much: what is read first, in at most 60 words. */
  readonly headline: readonly string[];
  /** What must be said besides. */
  readonly remarks: readonly string[];
  /** What else was found. */
  readonly findings: readonly string[];
  /** False where the headline leaves something open. */
  readonly decided: boolean;
}

/** What is read first may hold so many words. */
export const MOST_WORDS = 60;

export function wordsIn(sentences: readonly string[]): number {
  return sentences.join(' ').split(/\s+/u).filter(Boolean).length;
}

/** The first of several drafts, the fullest first, that has no more words than there is room for; the last one where none has. */
export function fullestWithin(drafts: readonly (readonly string[])[], room = MOST_WORDS): readonly string[] {
  return drafts.find((draft) => wordsIn(draft) <= room) ?? drafts[drafts.length - 1];
}

/** The answer of a study as it stands, which decides nothing where it was interrupted, and says so first. */
export function answerUnlessStopped(answer: Answer, stopping: string): Answer {
  if (!isInterrupted(stopping)) return answer;
  const first = `Inconclusive: ${stopping}.`;
  const { headline, findings } = answer;
  return wordsIn([first, ...headline]) <= MOST_WORDS
    ? { ...answer, headline: [first, ...headline], decided: false }
    : { ...answer, headline: [first], findings: [...headline, ...findings], decided: false };
}
