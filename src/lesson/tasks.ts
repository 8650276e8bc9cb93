import { ageQuestion, type AgesAsked } from './tasks/age-question.js';
import type { Question, Scenarios } from './task.js';
import { session, type SessionAsked } from './tasks/session.js';
import { handsQuestion } from './tasks/hands-question.js';
import { numbers, type NumbersAsked } from './tasks/numbers.js';
import { preparationQuestion } from './tasks/preparation-question.js';
import { rushing, type RushingAsked } from './tasks/rushing.js';
import { save } from './tasks/save.js';
import { swapOrHop, type SwapOrHopAsked } from './tasks/swap-or-hop.js';
import { tipPicture, type TipPictureAsked } from './tasks/tip-picture.js';
import { whenToHop, type WhenAsked } from './tasks/when-to-hop.js';
import { driftPicture, type DriftPictureAsked } from './tasks/drift-picture.js';
import { waiting, type WaitingAsked } from './tasks/waiting.js';
import { waitQuestion, type WaitsAsked } from './tasks/wait-question.js';
import { waysQuestion } from './tasks/ways-question.js';
import type { StrategyAsked } from './tasks/verdict.js';

/** All that the page may ask, each by its name; a new task is one more line in each of the two lists here. */
export type Ask =
  | { readonly name: 'session'; readonly question: SessionAsked }
  | { readonly name: 'tipPicture'; readonly question: TipPictureAsked }
  | { readonly name: 'waysQuestion'; readonly question: StrategyAsked }
  | { readonly name: 'rushing'; readonly question: RushingAsked }
  | { readonly name: 'handsQuestion'; readonly question: StrategyAsked }
  | { readonly name: 'waiting'; readonly question: WaitingAsked }
  | { readonly name: 'driftPicture'; readonly question: DriftPictureAsked }
  | { readonly name: 'waitQuestion'; readonly question: WaitsAsked }
  | { readonly name: 'swapOrHop'; readonly question: SwapOrHopAsked }
  | { readonly name: 'preparationQuestion'; readonly question: StrategyAsked }
  | { readonly name: 'whenToHop'; readonly question: WhenAsked }
  | { readonly name: 'ageQuestion'; readonly question: AgesAsked }
  | { readonly name: 'numbers'; readonly question: NumbersAsked }
  | { readonly name: 'save'; readonly question: Question };

/** How each is answered. */
interface Tasks {
  readonly session: typeof session;
  readonly tipPicture: typeof tipPicture;
  readonly waysQuestion: typeof waysQuestion;
  readonly rushing: typeof rushing;
  readonly handsQuestion: typeof handsQuestion;
  readonly waiting: typeof waiting;
  readonly driftPicture: typeof driftPicture;
  readonly waitQuestion: typeof waitQuestion;
  readonly swapOrHop: typeof swapOrHop;
  readonly preparationQuestion: typeof preparationQuestion;
  readonly whenToHop: typeof whenToHop;
  readonly ageQuestion: typeof ageQuestion;
  readonly numbers: typeof numbers;
  readonly save: typeof save;
}

export type TaskName = Ask['name'];
/** Those that answer a question of a part. */
export type QuizName = Extract<TaskName, `${string}Question`>;
export type QuestionOf<Name extends TaskName> = Extract<Ask, { name: Name }>['question'];
export type AnswerOf<Name extends TaskName> =
  ReturnType<Tasks[Name]> extends AsyncGenerator<infer Answer> ? Answer : never;

/** Begins to answer. */
export function answer({ name, question }: Ask, scenarios: Scenarios): AsyncGenerator {
  switch (name) {
    case 'session':
      return session(question, scenarios);
    case 'tipPicture':
      return tipPicture(question, scenarios);
    case 'waysQuestion':
      return waysQuestion(question, scenarios);
    case 'rushing':
      return rushing(question, scenarios);
    case 'handsQuestion':
      return handsQuestion(question, scenarios);
    case 'waiting':
      return waiting(question, scenarios);
    case 'driftPicture':
      return driftPicture(question, scenarios);
    case 'waitQuestion':
      return waitQuestion(question, scenarios);
    case 'swapOrHop':
      return swapOrHop(question, scenarios);
    case 'preparationQuestion':
      return preparationQuestion(question, scenarios);
    case 'whenToHop':
      return whenToHop(question, scenarios);
    case 'ageQuestion':
      return ageQuestion(question, scenarios);
    case 'numbers':
      return numbers(question, scenarios);
    case 'save':
      return save(question, scenarios);
  }
}
