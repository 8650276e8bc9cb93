import type { Scenarios } from './task.js';
import { ageQuestion } from './tasks/age-question.js';
import { driftPicture } from './tasks/drift-picture.js';
import { handsQuestion } from './tasks/hands-question.js';
import { numbers } from './tasks/numbers.js';
import { preparationQuestion } from './tasks/preparation-question.js';
import { rushing } from './tasks/rushing.js';
import { save } from './tasks/save.js';
import { session } from './tasks/session.js';
import { swapOrHop } from './tasks/swap-or-hop.js';
import { tipPicture } from './tasks/tip-picture.js';
import { waitQuestion } from './tasks/wait-question.js';
import { waiting } from './tasks/waiting.js';
import { waysQuestion } from './tasks/ways-question.js';
import { whenToHop } from './tasks/when-to-hop.js';

/** All that the page may ask, each by its name. */
const TASKS = {
  ...{ session, tipPicture, waysQuestion },
  ...{ rushing, handsQuestion },
  ...{ waiting, driftPicture, waitQuestion },
  ...{ swapOrHop, preparationQuestion },
  ...{ whenToHop, ageQuestion },
  ...{ numbers, save },
};

export type TaskName = keyof typeof TASKS;
/** Those that answer a question of a part. */
export type QuizName = Extract<TaskName, `${string}Question`>;
export type QuestionOf<Name extends TaskName> = Parameters<(typeof TASKS)[Name]>[0];
export type AnswerOf<Name extends TaskName> =
  ReturnType<(typeof TASKS)[Name]> extends AsyncGenerator<infer Answer> ? Answer : never;
export interface AskOf<Name extends TaskName> {
  readonly name: Name;
  readonly question: QuestionOf<Name>;
}
export type Ask = { [Name in TaskName]: AskOf<Name> }[TaskName];

const ANSWERING: {
  readonly [Name in TaskName]: (question: QuestionOf<Name>, scenarios: Scenarios) => AsyncGenerator;
} = TASKS;

/** Begins to answer. */
export function answer<Name extends TaskName>({ name, question }: AskOf<Name>, scenarios: Scenarios): AsyncGenerator {
  return ANSWERING[name](question, scenarios);
}
