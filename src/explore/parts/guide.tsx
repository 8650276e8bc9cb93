/// <reference lib="dom" />
import { useEffect, useId, useRef, useState } from 'preact/hooks';
import { Entry } from './entry.js';
import { plainText } from '../../report/text.js';
import type { Fault } from '../../scenario/load.js';
import { answerTo, type Answers, pathsOf, type Question, questionGroups, usualAnswer } from '../../guide/questions.js';

interface GuideProps {
  readonly answers: Answers;
  readonly faults: readonly Fault[];
  readonly onAnswers: (answers: Answers) => void;
  readonly onDone: () => void;
}

/** A few questions, group by group; what they come to so far is answered beside them. */
export function Guide({ answers, faults, onAnswers, onDone }: GuideProps) {
  const [step, setStep] = useState(0);
  const fieldset = useRef<HTMLFieldSetElement>(null);
  // Who goes on by the keyboard is at the questions that are next.
  useEffect(() => {
    fieldset.current?.focus();
  }, [step]);
  const groups = questionGroups(answers);
  const [about, questions] = groups[step];
  const isLast = step === groups.length - 1;
  const errors = faults.filter(({ severity }) => severity === 'error');
  const ofQuestion = (question: Question) => errors.filter(({ path }) => pathsOf(question, answers).includes(path));
  // What follows from an answer that is refused tells nothing more.
  const others = questions.some((question) => ofQuestion(question).length > 0) ? [] : errors;
  return (
    <form
      class="guide"
      onSubmit={(event) => {
        event.preventDefault();
      }}
    >
      <p class="note">
        Question group {step + 1} of {groups.length}. Each has a default; the answer beside it moves with yours.
      </p>
      <fieldset ref={fieldset} tabIndex={-1}>
        <legend>{about}</legend>
        {questions.map((question) => (
          <Asked
            key={question.key}
            {...{ question, answers, onAnswers }}
            faults={ofQuestion(question).map(({ message }) => message)}
          />
        ))}
      </fieldset>
      {others.map(({ path, message }) => (
        <p class="fault">{plainText(path === '' ? message : `${path}: ${message}`)}</p>
      ))}
      <div class="row">
        {step === 0 ? null : (
          <button
            type="button"
            onClick={() => {
              setStep(step - 1);
            }}
          >
            Back
          </button>
        )}
        <button
          type="button"
          class="main"
          onClick={() => {
            if (isLast) onDone();
            else setStep(step + 1);
          }}
        >
          {isLast ? 'Finish: show the whole plan' : `Next: ${groups[step + 1][0]}`}
        </button>
        {isLast ? null : (
          <button type="button" class="plain" onClick={onDone}>
            Take the defaults for the rest
          </button>
        )}
      </div>
    </form>
  );
}

interface AskedProps {
  readonly question: Question;
  readonly answers: Answers;
  readonly faults: readonly string[];
  readonly onAnswers: (answers: Answers) => void;
}

function Asked({ question, answers, faults, onAnswers }: AskedProps) {
  const { key, asks, from, within, words } = question;
  const id = useId();
  const isUnknown = answers.unknown.has(key);
  const usual = usualAnswer(question, answers);
  const put = (text: string) => {
    const own = new Map([...answers.own].filter(([each]) => each !== key));
    if (text.trim() !== '' && text !== usual) own.set(key, text);
    onAnswers({ own, unknown: answers.unknown });
  };
  const setUnknown = (isSet: boolean) => {
    const unknown = new Set([...answers.unknown].filter((each) => each !== key));
    if (isSet) unknown.add(key);
    onAnswers({ own: answers.own, unknown });
  };
  return (
    <div class="field">
      <label for={id}>{asks}</label>
      {words === null ? (
        <Entry
          id={id}
          disabled={isUnknown}
          value={answerTo(question, answers)}
          aria-describedby={`${id}-notes`}
          aria-invalid={faults.length > 0}
          onPut={put}
        />
      ) : (
        <select
          id={id}
          value={answerTo(question, answers)}
          aria-describedby={`${id}-notes`}
          onChange={({ currentTarget }) => {
            put(currentTarget.value);
          }}
        >
          {words.map((choice) => (
            <option value={choice}>{choice}</option>
          ))}
        </select>
      )}
      <div id={`${id}-notes`} class="row">
        {within === undefined ? null : (
          <label class="choice">
            <input
              type="checkbox"
              checked={isUnknown}
              onChange={({ currentTarget }) => {
                setUnknown(currentTarget.checked);
              }}
            />
            unknown: try a wide range
          </label>
        )}
        <p class="note">
          {answers.own.has(key) && !isUnknown ? `Yours; the default is ${usual}, ${from}.` : `Default: ${from}.`}
        </p>
        {faults.map((message) => (
          <p class="fault">{plainText(message)}</p>
        ))}
      </div>
    </div>
  );
}
