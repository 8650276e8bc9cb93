import { useEffect, useState } from 'preact/hooks';
import type { Engine } from '../engine.js';
import type { AnswerOf, QuestionOf, TaskName } from '../tasks.js';

/** An answer, with the question that it is of. */
interface Heard<Name extends TaskName> {
  readonly question: QuestionOf<Name>;
  readonly answer: AnswerOf<Name>;
}

/** What the engine has said so far; what it said of an earlier question stays until then. */
export interface Asked<Name extends TaskName> {
  readonly latest: Heard<Name> | null;
  /** The last answer after which none came. */
  readonly whole: Heard<Name> | null;
  /** Why there is no answer. */
  readonly fault: string | null;
}

/** A slider is asked about once it rests so many milliseconds, not at every step of its way. */
const REST = 120;

/** Asks the engine, and anew as soon as the question is another one. @param question null where nothing is asked */
export function useAnswer<Name extends TaskName>(
  engine: Engine,
  name: Name,
  question: QuestionOf<Name> | null,
  rest = REST,
): Asked<Name> {
  const [asked, hear] = useState<Asked<Name>>({ latest: null, whole: null, fault: null });
  useEffect(() => {
    if (question === null) return undefined;
    let drop = (): void => undefined;
    const soon = setTimeout(() => {
      drop = engine.ask(name, question, {
        onAnswer: (answer) => {
          hear(({ whole }) => ({ latest: { question, answer }, whole, fault: null }));
        },
        onEnd: () => {
          hear(({ latest }) => ({ latest, whole: latest, fault: null }));
        },
        onFault: (fault) => {
          hear((before) => ({ ...before, fault }));
        },
      });
    }, rest);
    return () => {
      clearTimeout(soon);
      drop();
    };
  }, [JSON.stringify(question)]);
  return asked;
}
