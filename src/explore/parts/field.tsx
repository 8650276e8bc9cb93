/// <reference lib="dom" />
import { useEffect, useId, useRef, useState } from 'preact/hooks';
import type { Fault } from '../../scenario/load.js';
import { plainText } from '../../report/text.js';
import type { Field, Slider } from '../engine/form.js';
import { type Along, writtenIn } from '../engine/along-values.js';
import { AlongChart } from './along-chart.js';
import { Entry } from './entry.js';
import { memo } from './memo.js';

interface FieldProps {
  readonly field: Field;
  /** As it stood when the page was opened; undefined where it is new. */
  readonly opened: Field | undefined;
  /** What is wrong with it, in the words of the command line. */
  readonly faults: readonly Fault[];
  readonly onValue: (path: string, value: string) => void;
  /** Whether it is looked at along its range, and what came of that so far. */
  readonly isLookedAt: boolean;
  readonly along: Along | null;
  readonly onLook: (path: string | null) => void;
  /** In which the scenario is saved. */
  readonly file: string;
}

/** One value: its name, an entry as a person writes it, a slider over what is plausible, and where it comes from. */
export const FieldRow = memo((props: FieldProps) => <Row {...props} />);

function Row({ field, opened, faults, onValue, isLookedAt, along, onLook, file }: FieldProps) {
  const { path, label, value, slider, choices, standing, source, isDefault } = field;
  const id = useId();
  const put = (text: string) => {
    onValue(path, text);
  };
  const isChanged = opened !== undefined && value !== opened.value;
  const notes = `${id}-notes`;
  const isBad = faults.some(({ severity }) => severity === 'error');
  return (
    <div class={`field${isChanged ? ' changed' : ''}`}>
      <label for={id}>{plainText(label)}</label>
      {choices === null ? (
        <Entry id={id} value={value} aria-invalid={isBad} aria-describedby={notes} onPut={put} />
      ) : (
        <select
          id={id}
          aria-describedby={notes}
          value={value}
          onChange={({ currentTarget }) => {
            put(currentTarget.value);
          }}
        >
          {choices.map((choice) => (
            <option value={choice}>{wordOf(choice)}</option>
          ))}
        </select>
      )}
      {slider === null ? null : <Range slider={slider} label={label} opened={opened} notes={notes} onValue={put} />}
      <div id={notes}>
        {faults.map(({ message }) => (
          <p class="fault">{plainText(message)}</p>
        ))}
        <p class="note">
          {slider?.isPlausible === true ? <span>plausible: {slider.text}. </span> : null}
          {standingText(standing, source, isDefault)}
          {slider === null || opened === undefined || isChanged ? null : (
            <span class="hidden"> The mark on the slider is at {markText(opened)}.</span>
          )}
          {isChanged ? (
            <>
              {' '}
              {slider === null ? `Was ${opened.value}.` : `Mark: ${markText(opened)}.`}{' '}
              <button
                type="button"
                class="plain"
                onClick={() => {
                  put(opened.value);
                }}
              >
                Put back
              </button>
            </>
          ) : null}
        </p>
      </div>
      {slider === null ? null : (
        <div>
          <button
            type="button"
            class="plain"
            aria-expanded={isLookedAt}
            onClick={() => {
              onLook(isLookedAt ? null : path);
            }}
          >
            {isLookedAt
              ? 'Fold'
              : `Time along the range${slider.isPlausible ? ' and break-even' : ', break-even and best value'}`}
          </button>
          {along === null ? null : <AlongChart along={along} file={file} />}
        </div>
      )}
    </div>
  );
}

/** What the mark on a slider stands at: the value of the source or of the default, else that with which the page was opened. */
function markText({ value, standing, isDefault }: Field): string {
  if (standing === 'given source') return `${value}, the value of the source`;
  if (standing === 'published') return `${value}, the published default`;
  return isDefault ? `${value}, the default` : `${value}, the value as opened`;
}

function wordOf(choice: string): string {
  if (choice === 'true') return 'yes';
  return choice === 'false' ? 'no' : choice;
}

function standingText(standing: Field['standing'], source: string | null, isDefault: boolean): string {
  const from = isDefault ? 'default' : 'as given';
  if (source !== null) return `${isDefault ? 'Default: ' : ''}${plainText(source)}.`;
  return standing === 'choice' ? (isDefault ? 'Default.' : '') : `Assumed (${from}, no source).`;
}

interface RangeProps {
  readonly slider: Slider;
  readonly label: string;
  readonly opened: Field | undefined;
  /** The id of what is said of the value. */
  readonly notes: string;
  readonly onValue: (text: string) => void;
}

/** Steps from one end to the other. */
const STEPS = 100;
/** Milliseconds for which a slider rests before its value is taken: the hand goes on meanwhile. */
const REST = 80;

/** Goes over a range, by equal factors where its ends lie far apart; a mark stands at the value of the source, or as opened. */
function Range({ slider, label, opened, notes, onValue }: RangeProps) {
  const { low, high, at, isWhole, isByFactors, text } = slider;
  // The range follows a value; while one goes over it, it stays as it was.
  const [held, setHeld] = useState({ low, high });
  const input = useRef<HTMLInputElement>(null);
  const follow = () => {
    setHeld({ low, high });
  };
  const isOutside = at < held.low || at > held.high;
  useEffect(() => {
    if (isOutside || document.activeElement !== input.current) follow();
  }, [isOutside, low, high]);
  const toStep = (value: number) =>
    STEPS *
    (isByFactors
      ? Math.log(value / held.low) / Math.log(held.high / held.low)
      : (value - held.low) / (held.high - held.low));
  const toValue = (step: number) => {
    const share = step / STEPS;
    const exact = isByFactors ? held.low * (held.high / held.low) ** share : held.low + share * (held.high - held.low);
    return isWhole ? Math.round(exact) : Number(exact.toPrecision(3));
  };
  const written = (value: number) => String(writtenIn(slider, value));
  const resting = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);
  const marked = opened?.slider ?? null;
  const mark = marked === null ? null : toStep(marked.at);
  return (
    <span class="range">
      <input
        ref={input}
        type="range"
        onBlur={follow}
        min={0}
        max={STEPS}
        step={1}
        value={Math.max(0, Math.min(STEPS, toStep(at)))}
        aria-label={`${plainText(label)}, from ${text}`}
        aria-valuetext={written(at)}
        aria-describedby={notes}
        onInput={({ currentTarget }) => {
          const value = written(toValue(Number(currentTarget.value)));
          clearTimeout(resting.current);
          resting.current = setTimeout(() => {
            onValue(value);
          }, REST);
        }}
      />
      {mark === null || !(mark >= 0 && mark <= STEPS) ? null : (
        <span class="tick" style={{ left: `calc(.5rem + ${mark / STEPS} * (100% - 1rem))` }} />
      )}
    </span>
  );
}
