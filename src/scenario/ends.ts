import type { LoadedScenario } from './assemble.js';
import { type Patched, type PathValue, withValues } from './patch.js';
import { formatQuantity, readQuantity } from './quantity.js';
import type { Written } from './ranges.js';
import type { RegisterValue } from './register.js';
import { stepTimesBeside } from './siblings.js';
import { twinOf } from './twins.js';

/**
 * The scenario with a value at an end of its range, together with what is one unknown with it: the spread of a step's
 * time goes along in proportion with its usual time, and its twin changes alike. `entry` is one of the register's.
 */
export function withEnd(
  loaded: LoadedScenario,
  entry: RegisterValue,
  end: Written,
  twin: RegisterValue | null = twinOf(loaded.register, entry),
): Patched {
  const both = twin === null ? [entry] : [entry, twin];
  return withValues(
    loaded,
    withSpread(
      loaded.register,
      both.map(({ path }) => ({ path, value: end })),
    ),
  );
}

/** Values, and of each that is a step's usual time those that say how far it spreads, in proportion, where they are not among them. */
export function withSpread(register: readonly RegisterValue[], values: readonly PathValue[]): readonly PathValue[] {
  const beside = values.flatMap(({ path, value }) =>
    typeof value === 'string' ? spreadBeside(register, path, value) : [],
  );
  return [...values, ...beside.filter(({ path }) => values.every((each) => each.path !== path))];
}

function spreadBeside(register: readonly RegisterValue[], path: string, end: string): readonly PathValue[] {
  const at = path.lastIndexOf('.') + 1;
  const valueAt = (key: string) => secondsOf(register.find((entry) => entry.path === path.slice(0, at) + key)?.value);
  const [to, from] = [secondsOf(end), valueAt(path.slice(at))];
  if (!path.includes('.steps.') || to === null || from === null || from === 0) return [];
  return stepTimesBeside(path.slice(at)).flatMap((key) => {
    const seconds = valueAt(key);
    const value = seconds === null ? null : formatQuantity('time', seconds * (to / from), 12);
    return value === null ? [] : [{ path: path.slice(0, at) + key, value }];
  });
}

function secondsOf(written: Written | undefined): number | null {
  const reading = typeof written === 'string' ? readQuantity('time', written) : null;
  return reading?.ok === true ? reading.value : null;
}
