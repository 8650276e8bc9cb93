import type { Outcome } from '../../campaign/outcome.js';
import { tallyAt } from './moment.js';
import type { Played } from './play.js';

/** What a session came to. Times in seconds. */
export interface Account {
  readonly name: string;
  /** From its start to its end. */
  readonly time: number;
  readonly lostScanning: number;
  readonly yield: number;
  readonly good: number;
  readonly undetectedBad: number;
  /** Images given up, or not taken by the end. */
  readonly unkept: number;
  readonly tips: number;
  readonly attempts: number;
  /** Every image is kept or given up. */
  readonly isComplete: boolean;
}

export function accountOf(name: string, outcome: Outcome, { steps, end }: Pick<Played, 'steps' | 'end'>): Account {
  const { good, undetectedBad, givenUp, missing, yield: share, tips, isFinished } = outcome.cut ?? outcome;
  return {
    ...{ name, time: end, good, tips, yield: share },
    undetectedBad: undetectedBad,
    unkept: givenUp + missing,
    lostScanning: tallyAt({ steps }, end).get('scanning lost') ?? 0,
    attempts: steps.filter(({ scan }) => scan !== null).length,
    isComplete: isFinished,
  };
}
