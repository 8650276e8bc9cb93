import type { Varied } from './varied.js';

const HURRY =
  'what comes out for a pace or a time of steps is a calculation, not advice to hurry: steps that keep people or the instrument safe keep their time, and local rules come first';

/** A warning where settings make hands or steps quicker. */
export function notToHurry(vary: readonly Pick<Varied, 'path'>[]): readonly string[] {
  return vary.some(({ path }) => /(?:^|\.)(?:pace\.hands|steps\.)/u.test(path)) ? [HURRY] : [];
}
