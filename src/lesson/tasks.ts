import type { Question, Scenarios } from './task.js';
import { numbers, type NumbersAsked } from './tasks/numbers.js';
import { save } from './tasks/save.js';

/** All that the page may ask, each by its name; a new task is one more line in each of the two lists here. */
export type Ask =
  | { readonly name: 'numbers'; readonly question: NumbersAsked }
  | { readonly name: 'save'; readonly question: Question };

export const TASKS = { numbers, save } as const;

export type TaskName = Ask['name'];
export type QuestionOf<Name extends TaskName> = Extract<Ask, { name: Name }>['question'];
export type AnswerOf<Name extends TaskName> =
  ReturnType<(typeof TASKS)[Name]> extends AsyncGenerator<infer Answer> ? Answer : never;

/** Begins to answer. */
export function answer({ name, question }: Ask, scenarios: Scenarios): AsyncGenerator<unknown> {
  switch (name) {
    case 'numbers':
      return numbers(question, scenarios);
    case 'save':
      return save(question, scenarios);
  }
}
