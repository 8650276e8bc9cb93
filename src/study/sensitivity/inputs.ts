import { impossibleIn } from '../../scenario/checks/impossible.js';
import { leafAt } from '../../scenario/describe.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { splitQuantity } from '../../scenario/quantity.js';
import { movedTo, numberIn, rangeOf, type Written, type WrittenRange } from '../../scenario/ranges.js';
import type { RegisterValue } from '../../scenario/register.js';
import { eachUnknownOnce, twinOf } from '../../scenario/twins.js';
import { withEnd } from '../../scenario/with-end.js';
import type { Axis } from '../vary/axis.js';
import { written } from '../vary/range.js';

/** A value of which only a range is known. */
export interface Input {
  readonly entry: RegisterValue;
  /** The same value of the other workflow, which goes along; null where there is none. */
  readonly twin: RegisterValue | null;
  readonly range: WrittenRange;
  /** From one end of the range to the other, in the unit of the value. */
  readonly axis: Axis;
  readonly value: number;
}

/** A scenario with a value elsewhere, or why that is none. */
export type Put =
  { readonly ok: true; readonly scenario: LoadedScenario } | { readonly ok: false; readonly message: string };

/** What a value that has no range of its own is multiplied with, down and up: ±50 % on a logarithmic scale. */
const FACTOR = 1.5;

/** A range whose ends lie this far apart is gone through in equal ratios. */
const LOG_FROM = 3;

/** The values that are tried, each unknown once: all that is only assumed, with `isAll` also what has a source; never what is chosen. */
export function inputsOf(loaded: LoadedScenario, isAll: boolean): readonly Input[] {
  return eachUnknownOnce(loaded.register).flatMap((entry) => {
    const isWanted = entry.standing === 'assumed' || (isAll && entry.standing !== 'choice');
    const input = isWanted ? inputOf(loaded, entry) : null;
    return input === null ? [] : [input];
  });
}

function inputOf(loaded: LoadedScenario, entry: RegisterValue): Input | null {
  const found = leafAt(loaded, entry.path);
  if (found === null) return null;
  const { leaf, written: value } = found;
  if (typeof value !== 'number' && typeof value !== 'string') return null;
  const here = numberIn(leaf, value);
  const range = entry.range ?? aroundIt(value, here, (wanted) => movedTo(leaf, value, wanted)?.written ?? null);
  const own = typeof value === 'number' ? { number: value, unit: '' } : splitQuantity(value);
  if (here === null || range === null || own === null) return null;
  const inUnit = (end: Written): number | null => {
    const there = numberIn(leaf, end);
    if (there !== null && here !== 0) return own.number * (there / here);
    const parts = typeof end === 'number' ? { number: end, unit: '' } : splitQuantity(end);
    return parts?.unit === own.unit ? parts.number : null;
  };
  const [low, high] = [inUnit(range.low), inUnit(range.high)];
  if (low === null || high === null || !(low < high)) return null;
  const isWhole =
    own.unit === '' &&
    [low, high, own.number].every(Number.isInteger) &&
    !withEnd(loaded, entry, written(own.number + 0.5, own.unit)).ok;
  const isLog = !isWhole && low > 0 && high / low >= LOG_FROM;
  const twin = twinOf(loaded.register, entry);
  const description = twin === null ? entry.description : `${entry.description}, in both workflows`;
  return {
    entry: { ...entry, description },
    twin,
    range,
    axis: { low, high, unit: own.unit, isLog, isWhole },
    value: own.number,
  };
}

function aroundIt(value: Written, here: number | null, moved: (wanted: number) => Written | null): WrittenRange | null {
  if (here === null || here === 0) return null;
  const [low, high] = [moved(here / FACTOR), moved(here * FACTOR)];
  return low === null || high === null || low === high || value === '' ? null : rangeOf(low, high);
}

/** The scenario with an input elsewhere, together with what is one unknown with it (see `withEnd`). */
export function put(loaded: LoadedScenario, { entry, twin }: Input, setting: Written): Put {
  const changed = withEnd(loaded, entry, setting, twin);
  if (!changed.ok) return { ok: false, message: changed.faults.at(0)?.message ?? 'it is no scenario' };
  const impossible = impossibleIn(changed.scenario);
  return impossible === null ? changed : { ok: false, message: impossible };
}
