import type { LoadedScenario } from './assemble.js';
import { formatQuantity, readQuantity } from './quantity.js';
import type { Written } from './ranges.js';
import type { RegisterValue } from './register.js';
import { type Changed, withValue } from './with-value.js';

/** Values of a step's time, in ascending order; the middle one is the unknown, the others say how far it spreads. */
const FORMS = [
  { centre: 'usual', order: ['usual', 'p90'] },
  { centre: 'mode', order: ['min', 'mode', 'max'] },
];
/** What is one and the same in every workflow: steps, how hands disturb the instrument, and its steady drift. */
const SHARED = /^workflows\.(swap|hop)\.(?:steps\.(?:setUp|warmUp|locate)\.|drift\.(?:handling\.|steady$))/u;

interface Change {
  readonly path: string;
  readonly value: Written;
}

/**
 * The scenario with a value at an end of its range, together with what is one unknown with it: the spread of a step's
 * time goes along in proportion with its usual time, and what is the same in both workflows changes in both, where both
 * are given alike. `entry` is one of the register's.
 */
export function withEnd(loaded: LoadedScenario, entry: RegisterValue, end: Written): Changed {
  let changed: Changed = { ok: true, scenario: loaded };
  for (const { path, value } of twins(loaded, entry).flatMap((twin) => withSpread(loaded, twin, end))) {
    if (changed.ok) changed = withValue(changed.scenario, path, value);
  }
  return changed;
}

/** The value itself, and the same one of the other workflow where the two are given alike. */
function twins({ register }: LoadedScenario, entry: RegisterValue): readonly RegisterValue[] {
  const workflow = SHARED.exec(entry.path)?.[1];
  if (workflow === undefined) return [entry];
  const path = entry.path.replace(`workflows.${workflow}.`, `workflows.${workflow === 'swap' ? 'hop' : 'swap'}.`);
  const twin = register.find((other) => other.path === path);
  return twin?.value === entry.value && twin.standing === entry.standing ? [entry, twin] : [entry];
}

/** The change of a step's usual time with those of its spread, in an order in which the values ascend at every moment. */
function withSpread({ register }: LoadedScenario, { path, value }: RegisterValue, end: Written): readonly Change[] {
  const main: Change = { path, value: end };
  const form = FORMS.find(({ centre }) => path.includes('.steps.') && path.endsWith(`.${centre}`));
  const factor = ratio(end, value);
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
