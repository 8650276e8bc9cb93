/// <reference lib="dom" />
import { useEffect, useId, useRef, useState } from 'preact/hooks';
import { Entry } from './entry.js';
import { plainText } from '../../report/text.js';
import type { Fault } from '../../scenario/load.js';
import {
  answerTo,
  type Answers,
  type Key,
  KNOWN,
  type Known,
  knownOf,
  type Moved,
  movedDefaults,
  pathsOf,
  type Question,
  questionGroups,
  usualAnswer,
  withKnown,
  withOwn,
} from '../../guide/questions.js';

interface GuideProps {
  readonly answers: Answers;
  readonly faults: readonly Fault[];
  readonly onAnswers: (answers: Answers) => void;
  readonly onDone: () => void;
}

/** The last answer: with what was wrong before it, by which is found what it made wrong, and the defaults that it moved. */
interface Last {
  readonly key: Key;
  readonly before: readonly string[];
  readonly moved: readonly Moved[];
}

/** A few questions, group by group; what they come to so far is answered beside them. */
export function Guide({ answers, faults, onAnswers, onDone }: GuideProps) {
  const [step, setStep] = useState(0);
  /** The last group that was shown: defaults up to there have been seen. */
  const [reached, setReached] = useState(0);
  const [last, setLast] = useState<Last | null>(null);
  const fieldset = useRef<HTMLFieldSetElement>(null);
  // Who goes on by the keyboard is at the questions that are next.
  useEffect(() => {
    fieldset.current?.focus({ preventScroll: true });
  }, [step]);
  const groups = questionGroups(answers);
  const [about, questions] = groups[step];
  const isLast = step === groups.length - 1;
  const errors = faults.filter(({ severity }) => severity === 'error');
  const ofQuestion = (question: Question) => errors.filter(({ path }) => pathsOf(question, answers).includes(path));
  const isRefused = questions.some((question) => ofQuestion(question).length > 0);
  // What the last answer made wrong elsewhere stands beside it, and what follows from an answer that is refused tells nothing more.
  const made = isRefused ? [] : errors.filter(({ message }) => last !== null && !last.before.includes(message));
  const beside = (question: Question) => [...ofQuestion(question), ...(last?.key === question.key ? made : [])];
  const isShown = (fault: Fault) => questions.some((question) => beside(question).includes(fault));
  const others = isRefused ? [] : errors.filter((fault) => !isShown(fault));
  const put = (key: Key, given: Answers) => {
    const shown = groups.slice(0, reached + 1).flatMap(([, each]) => each);
    setLast({
      key,
      before: errors.map(({ message }) => message),
      moved: movedDefaults(
        shown.filter((question) => question.key !== key),
        answers,
        given,
      ),
    });
    onAnswers(given);
  };
  const goTo = (next: number) => {
    toTop(fieldset.current);
    setLast(null);
    setStep(next);
    setReached(Math.max(reached, next));
  };
  const finish = () => {
    toTop(fieldset.current);
    onDone();
  };
  return (
    <form
      class="guide"
      onSubmit={(event) => {
        event.preventDefault();
      }}
    >
      <p class="note">
        Question group {step + 1} of {groups.length}. Each has a default; the answer moves with yours.
      </p>
      {others.map((fault) => {
        const place = groups.findIndex(([, each]) => each.some((question) => ofQuestion(question).includes(fault)));
        return (
          <p class="fault">
            {plainText(fault.message)}{' '}
            {place < 0 || place === step ? null : (
              <button
                type="button"
                class="plain"
                onClick={() => {
                  goTo(place);
                }}
              >
                Back to “{groups[place][0]}”
              </button>
            )}
          </p>
        );
      })}
      <fieldset ref={fieldset} tabIndex={-1}>
        <legend>{about}</legend>
        {questions.map((question) => (
          <Asked
            key={question.key}
            {...{ question, answers }}
            onAnswers={(given) => {
              put(question.key, given);
            }}
            faults={[...new Set(beside(question).map(({ message }) => message))]}
            moved={last?.key === question.key ? last.moved : []}
          />
        ))}
      </fieldset>
      <div class="row">
        {step === 0 ? null : (
          <button
            type="button"
            onClick={() => {
              goTo(step - 1);
            }}
          >
            Back
          </button>
        )}
        <button
          type="button"
          class="main"
          onClick={() => {
            if (isLast) finish();
            else goTo(step + 1);
          }}
        >
          {isLast ? 'Finish: show the whole plan' : `Next: ${groups[step + 1][0]}`}
        </button>
        {isLast ? null : (
          <button type="button" class="plain" onClick={finish}>
            Take the defaults for the rest
          </button>
        )}
      </div>
    </form>
  );
}

/** Brings the first question to the top of its column, and the verdict into view. */
function toTop(fieldset: HTMLElement | null): void {
  fieldset?.closest('.plan')?.scrollTo({ top: 0 });
  fieldset?.closest('.explore')?.scrollIntoView({ block: 'start' });
}

const KNOWN_WORDS: Readonly<Record<Known, string>> = {
  usual: 'as usual, or estimated',
  measured: 'measured here',
  unknown: 'unknown: try a wide range',
};

interface AskedProps {
  readonly question: Question;
  readonly answers: Answers;
  readonly faults: readonly string[];
  /** Defaults that the answer to it has just moved. */
  readonly moved: readonly Moved[];
  readonly onAnswers: (answers: Answers) => void;
}

function Asked({ question, answers, faults, moved, onAnswers }: AskedProps) {
  const { key, asks, from, within, words, isText } = question;
  const id = useId();
  const known = knownOf(key, answers);
  const usual = usualAnswer(question, answers);
  const put = (text: string) => {
    onAnswers(withOwn(answers, key, text.trim() === '' ? null : text));
  };
  const own = answers.own.get(key);
  return (
    <div class={isText === true ? 'field wide' : 'field'}>
      <label for={id}>{asks}</label>
      {words === null ? (
        <Entry
          id={id}
          disabled={known === 'unknown'}
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
        {faults.map((message) => (
          <p class="fault">{plainText(message)}</p>
        ))}
        {moved.length === 0 ? null : (
          <p class="moved">
            With this answer defaults are now:{' '}
            {plainText(moved.map((each) => `“${each.question.asks}” ${each.now} (was ${each.was})`).join('; '))}.
          </p>
        )}
        {within === undefined ? null : (
          <select
            class="known"
            aria-label={`How well it is known: ${asks}`}
            value={known}
            onChange={({ currentTarget }) => {
              const chosen = KNOWN.find((each) => each === currentTarget.value);
              if (chosen !== undefined) onAnswers(withKnown(answers, key, chosen));
            }}
          >
            {KNOWN.map((each) => (
              <option value={each}>{KNOWN_WORDS[each]}</option>
            ))}
          </select>
        )}
        <p class="note">
          {own === undefined || known === 'unknown'
            ? `Default: ${from}.`
            : own === usual
              ? `Yours, and the default: ${from}.`
              : `Yours; the default is ${usual}, ${from}.`}
        </p>
      </div>
    </div>
  );
}
