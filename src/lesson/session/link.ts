import { CHOICES, type Choice, type Decision } from './choices.js';

/** Decisions as a link says them: `3c.7r` is to clean at point 3 and to replace at point 7. */
const LETTERS: Readonly<Record<Choice, string>> = {
  'go on': 'g',
  check: 'k',
  clean: 'c',
  recondition: 'n',
  replace: 'r',
  'take again': 't',
  keep: 'i',
};

/** What the text in a link looks like. */
export const DECISIONS_FORM = /^(\d{1,5}[gkcnrti])(\.\d{1,5}[gkcnrti])*$/u;

export function decisionsText(decisions: readonly Decision[]): string {
  return decisions.map(({ point, choice }) => `${point}${LETTERS[choice]}`).join('.');
}

/** What such a text says; empty where it is none. */
export function decisionsIn(text: string): readonly Decision[] {
  if (!DECISIONS_FORM.test(text)) return [];
  return text.split('.').flatMap((each) => {
    const choice = CHOICES.find((candidate) => each.endsWith(LETTERS[candidate]));
    return choice === undefined ? [] : [{ point: Number(each.slice(0, -1)), choice }];
  });
}
