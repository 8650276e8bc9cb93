import { useState } from 'preact/hooks';
import type { StageProps } from '../stage.js';
import type { QuestionOf, QuizName } from '../tasks.js';
import { Button, StatusLine } from './controls.js';

interface QuizProps extends StageProps {
  /** Task that answers; its name is also that of the place in the page. */
  readonly task: QuizName;
  readonly question: string;
  readonly answers: readonly string[];
  /** What the engine is asked. */
  readonly asked: QuestionOf<QuizName>;
}

/** A question with a few answers, of which the engine works out the right one when it is asked. */
export function Quiz({ stage: { engine }, task, question, answers, asked }: QuizProps) {
  const [chosen, choose] = useState<string | null>(null);
  const [said, say] = useState('');
  const check = () => {
    if (chosen === null) {
      say('Choose an answer first.');
      return;
    }
    say('Computing …');
    engine.ask(task, asked, {
      onAnswer: ({ right, why }) => {
        if (right !== null) say(chosen === right ? `Right. ${why}` : `Computed: ${right}. ${why}`);
      },
      onFault: say,
    });
  };
  return (
    <fieldset id={task}>
      <legend>A question</legend>
      <p>{question}</p>
      {answers.map((text) => (
        <label class="choice">
          <input
            type="radio"
            name={task}
            checked={chosen === text}
            onChange={() => {
              choose(text);
            }}
          />
          {text}
        </label>
      ))}
      <div class="row">
        <Button onPress={check}>Check answer</Button>
      </div>
      <StatusLine>{said}</StatusLine>
    </fieldset>
  );
}
