import type { LoadedScenario } from './assemble.js';
import { formatQuantity, readQuantity } from './quantity.js';
import type { Written } from './ranges.js';
import type { RegisterValue } from './register.js';
import { twinOf } from './twins.js';
import { type Changed, withValue } from './with-value.js';

/** Values of a step's time, in ascending order; the middle one is the unknown, the others say how far it spreads. */
const FORMS = [
  { centre: 'usual', order: ['usual', 'p90'] },
  { centre: 'mode', order: ['min', 'mode', 'max'] },
];

interface Change {
  readonly path: string;
  readonly value: Written;
}

/**
 * The scenario with a value at an end of its range, together with what is one unknown with it: the spread of a step's
 * time goes along in proportion with its usual time, and its twin changes alike. `entry` is one of the register's.
 */
export function withEnd(
  loaded: LoadedScenario,
  entry: RegisterValue,
  end: Written,
  twin: RegisterValue | null = twinOf(loaded.register, entry),
): Changed {
  let changed: Changed = { ok: true, scenario: loaded };
  const changes = [entry, twin].flatMap((value) => (value === null ? [] : withSpread(loaded, value.path, end)));
  for (const { path, value } of changes) if (changed.ok) changed = withValue(changed.scenario, path, value);
  return changed;
}

/** The change of a step's usual time with those of its spread, in an order in which the values ascend at every moment. */
function withSpread({ register }: LoadedScenario, path: string, end: Written): readonly Change[] {
  const main: Change = { path, value: end };
  const form = FORMS.find(({ centre }) => path.includes('.steps.') && path.endsWith(`.${centre}`));
  const value = register.find((entry) => entry.path === path)?.value;
  const factor = value === undefined ? null : ratio(end, value);
  if (form === undefined || factor === null) return [main];
  const changes = form.order.flatMap((key): readonly Change[] => {
    if (key === form.centre) return [main];
    const sibling = register.find((other) => other.path === path.replace(/[^.]+$/u, key));
    const seconds = sibling === undefined ? null : secondsOf(sibling.value);
    return sibling === undefined || seconds === null
      ? []
      : [{ path: sibling.path, value: formatQuantity('time', seconds * factor, 12) }];
  });
  return factor > 1 ? changes.toReversed() : changes;
}

function ratio(end: Written, value: Written): number | null {
  const [to, from] = [secondsOf(end), secondsOf(value)];
  return to === null || from === null || from === 0 ? null : to / from;
}

function secondsOf(written: Written): number | null {
  const reading = typeof written === 'string' ? readQuantity('time', written) : null;
  return reading?.ok === true ? reading.value : null;
}
