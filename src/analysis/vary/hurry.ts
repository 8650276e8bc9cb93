import type { Varied } from './varied.js';

const HURRY =
  'what comes out for a pace or a time of steps is a calculation, not advice to hurry: steps that keep people or the instrument safe keep their time, and local rules come first';

/** Which way along a value is a hurry: 1 up, -1 down; null where that is not so of it. */
export function hurryAlong(path: string): 1 | -1 | null {
  if (/(?:^|\.)(?:pace\.(?:scan|hands|wait)|steps\.settle\.until)$/u.test(path)) return 1;
  return /(?:^|\.)steps\.settle(?:\.fixed)?$/u.test(path) ? -1 : null;
}

/** A warning where settings make hands or steps quicker. */
export function notToHurry(vary: readonly Pick<Varied, 'path'>[]): readonly string[] {
  return vary.some(({ path }) => /(?:^|\.)(?:pace\.hands|steps\.)/u.test(path)) ? [HURRY] : [];
}
