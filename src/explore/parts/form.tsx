import { useCallback, useMemo, useState } from 'preact/hooks';
import type { Fault } from '../../scenario/load.js';
import type { Along } from '../engine/along-values.js';
import type { Field, Form } from '../engine/form.js';
import { FieldRow } from './field.js';

interface FormProps {
  readonly form: Form;
  readonly opened: ReadonlyMap<string, Field>;
  readonly faults: readonly Fault[];
  readonly onValue: (path: string, value: string) => void;
  readonly along: Along | null;
  readonly onLook: (path: string | null) => void;
  readonly file: string;
}

const NONE: readonly Fault[] = [];

/** Words that a question has, but nobody looks for. */
const FILLERS = new Set(['a', 'an', 'the', 'of', 'on', 'in', 'at', 'to', 'for', 'how', 'many', 'long', 'is', 'are']);

function wordsIn(text: string): readonly string[] {
  return text
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter(Boolean);
}

function wordsOf({ label, path }: Field): readonly string[] {
  return wordsIn(`${label} ${path}`);
}

function isSame(word: string, other: string): boolean {
  return word === other || word === `${other}s` || other === `${word}s`;
}

/** Every value of the scenario in groups, of which one is open at first; a search opens those that have what is looked for, as whole words where some do. */
export function PlanForm({ form, opened, faults, onValue, along, onLook, file }: FormProps) {
  const [looked, setLooked] = useState<string | null>(null);
  const look = useCallback(
    (path: string | null) => {
      setLooked(path);
      onLook(path);
    },
    [onLook],
  );
  const [sought, setSought] = useState('');
  const [onlyAssumed, setOnlyAssumed] = useState(false);
  const words = wordsIn(sought).filter((word) => !FILLERS.has(word));
  const all = form.groups.flatMap(({ fields }) => fields);
  const whole = all.filter((field) => words.every((word) => wordsOf(field).some((each) => isSame(word, each))));
  const found = new Set(
    whole.length > 0 ? whole : all.filter((field) => words.every((word) => wordsOf(field).join(' ').includes(word))),
  );
  const isSought = (field: Field) => (!onlyAssumed || field.standing === 'assumed') && found.has(field);
  const byPath = useMemo(() => {
    const found = new Map<string, Fault[]>();
    for (const fault of faults) found.set(fault.path, [...(found.get(fault.path) ?? []), fault]);
    return found;
  }, [faults]);
  const isSearch = words.length > 0 || onlyAssumed;
  return (
    <div>
      <div class="search">
        <label>
          Find a value
          <input
            type="search"
            value={sought}
            onInput={({ currentTarget }) => {
              setSought(currentTarget.value);
            }}
          />
        </label>
        <label class="choice">
          <input
            type="checkbox"
            checked={onlyAssumed}
            onChange={({ currentTarget }) => {
              setOnlyAssumed(currentTarget.checked);
            }}
          />
          unmeasured values only
        </label>
      </div>
      {form.groups.map(({ title, fields }) => {
        const shown = isSearch ? fields.filter(isSought) : fields;
        if (shown.length === 0) return null;
        const changed = fields.filter(
          ({ path, value }) => opened.has(path) && opened.get(path)?.value !== value,
        ).length;
        const wrong = fields.filter(({ path }) => byPath.has(path)).length;
        return (
          <Group title={title} count={shown.length} changed={changed} wrong={wrong} isOpen={isSearch} key={title}>
            {() =>
              shown.map((field) => (
                <FieldRow
                  key={field.path}
                  field={field}
                  opened={opened.get(field.path)}
                  faults={byPath.get(field.path) ?? NONE}
                  onValue={onValue}
                  isLookedAt={looked === field.path}
                  along={along?.path === field.path ? along : null}
                  onLook={look}
                  file={file}
                />
              ))
            }
          </Group>
        );
      })}
    </div>
  );
}

interface GroupProps {
  readonly title: string;
  readonly count: number;
  readonly changed: number;
  readonly wrong: number;
  /** Whether a search holds it open. */
  readonly isOpen: boolean;
  /** Made once it is open: there are many fields. */
  readonly children: () => preact.ComponentChildren;
}

function Group({ title, count, changed, wrong, isOpen, children }: GroupProps) {
  const [isUnfolded, setUnfolded] = useState(false);
  const isSeen = isOpen || isUnfolded;
  return (
    <details
      class="group"
      open={isSeen}
      onToggle={({ currentTarget }) => {
        if (!isOpen) setUnfolded(currentTarget.open);
      }}
    >
      <summary>
        {title} <span class="count">{count}</span>
        {changed === 0 ? null : <span class="count changed">({changed} changed)</span>}
        {wrong === 0 ? null : <span class="count wrong">{wrong} to look at</span>}
      </summary>
      {isSeen ? children() : null}
    </details>
  );
}
