import { impossibleIn } from '../../scenario/checks/impossible.js';
import { valueAt, withEnding } from '../../scenario/describe.js';
import type { LoadedScenario } from '../../scenario/load.js';
import type { Patched } from '../../scenario/patch.js';
import { splitQuantity } from '../../scenario/quantity.js';
import { numberIn, rangeAround, type Written, type WrittenRange } from '../../scenario/ranges.js';
import { type RegisterValue, writtenOf } from '../../scenario/register.js';
import { withEnd } from '../../scenario/ends.js';
import { eachUnknownOnce, twinOf } from '../../scenario/twins.js';
import type { Axis } from '../../analysis/vary/axis.js';
import { written } from '../../analysis/vary/range.js';

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
  const leaf = valueAt(loaded, entry.path)?.leaf;
  if (leaf === undefined) return null;
  const value = writtenOf(entry);
  const here = numberIn(leaf, value);
  const range = entry.range ?? rangeAround(leaf, value);
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
  const description = twin === null ? entry.description : withEnding(entry.description, ', in both workflows');
  return {
    entry: { ...entry, description },
    twin,
    range,
    axis: { low, high, unit: own.unit, isLog, isWhole },
    value: own.number,
  };
}

/** The scenario with an input elsewhere, together with what is one unknown with it (see `withEnd`). */
export function put(loaded: LoadedScenario, { entry, twin }: Input, setting: Written): Patched {
  const changed = withEnd(loaded, entry, setting, twin);
  if (!changed.ok) return changed;
  const impossible = impossibleIn(changed.scenario);
  return impossible === null ? changed : { ok: false, message: impossible };
}
