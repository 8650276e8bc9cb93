import type { Question } from '../task.js';

/** The engine's answer to a question of the page; `right` is null until it is known. */
export interface Answered {
  readonly right: string | null;
  readonly why: string;
}

/** A question about one strategy. */
export interface StrategyAsked extends Question {
  readonly strategy: string;
}

/** Not known yet; between two of these the question may be dropped. */
export const WORKING: Answered = { right: null, why: '' };

/** Replications for the answer to a question. */
export const ASKED_OF = 400;
export const CHUNK = 40;
