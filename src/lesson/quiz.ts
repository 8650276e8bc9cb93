import { statusLine } from './controls.js';
import { button, element } from './dom.js';
import type { Stage } from './part.js';
import type { QuestionOf, QuizName } from './tasks.js';

/** A question with a few answers, of which the engine works out the right one when it is asked. */
export interface Quiz {
  /** Task that answers; its name is also that of the place in the page. */
  readonly task: QuizName;
  readonly question: string;
  readonly answers: readonly string[];
  /** What the engine is asked. */
  readonly asked: () => QuestionOf<QuizName>;
}

export function quiz({ engine }: Stage, { task, question, answers, asked }: Quiz): HTMLElement {
  const said = statusLine();
  const choices = answers.map((text, place) => {
    const input = element('input', { type: 'radio', name: task, id: `${task}-${place}` });
    return { text, input, row: element('label', { class: 'choice' }, input, text) };
  });
  const reveal = button('Check answer', () => {
    const chosen = choices.find(({ input }) => input.checked)?.text;
    if (chosen === undefined) {
      said.textContent = 'Choose an answer first.';
      return;
    }
    said.textContent = 'Computing …';
    engine.ask(task, asked(), {
      onAnswer: ({ right, why }) => {
        if (right !== null) said.textContent = chosen === right ? `Right. ${why}` : `Computed: ${right}. ${why}`;
      },
      onFault: (message) => {
        said.textContent = message;
      },
    });
  });
  return element(
    'fieldset',
    { id: task },
    element('legend', {}, 'A question'),
    element('p', {}, question),
    ...choices.map(({ row }) => row),
    element('div', { class: 'row' }, reveal),
    said,
  );
}
