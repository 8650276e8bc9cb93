import { declaredOf } from '../../probe/causes.js';
import type { LoadedScenario } from '../assemble.js';
import { withEnd } from '../ends.js';
import type { Faults } from '../faults.js';
import { movedTo, numberIn, rangeOf, type Written } from '../ranges.js';
import type { RegisterValue } from '../register.js';
import { sharedSchema } from '../schema/scenario.js';
import { type FoundLeaf, leafAt } from '../schema-walk.js';
import { show } from '../show.js';
import { asWritten } from '../siblings.js';
import { type Laid, resolveValue } from '../value-path.js';
import { chippingWithoutEnd } from './endless.js';

/**
 * The register with each range cut to where no tip chips without end: an end that lies far off makes a campaign hundreds of times
 * longer, or endless. What is cut is named.
 */
export function endingRanges(loaded: LoadedScenario, written: Laid, faults: Faults): readonly RegisterValue[] {
  const kinds = loaded.strategies.flatMap(({ settings }) => Object.values(settings.tips));
  const chips = kinds.some(({ hazards }) => hazards.some(({ cause }) => declaredOf(cause).effect.chips));
  // What is endless as it stands is refused for that.
  if (!chips || endless(loaded) !== null) return loaded.register;
  // What is drawn from its uncertainty is not put to ends, and is known as far as it is said to be.
  const drawn = new Set(loaded.inputs.flatMap(({ parameters }) => parameters.map(({ path }) => path)));
  return loaded.register.map((entry) => {
    const { range } = entry;
    const resolved = resolveValue(written, entry.path);
    if (range === null || drawn.has(entry.path) || !BEARS_ON_CHIPPING.test(entry.path) || !resolved.ok) return entry;
    const { strategy, path, document } = resolved.place;
    const [low, high] = [range.low, range.high].map((end) => {
      const reason = endlessAt(loaded, entry, end);
      if (reason === null) return end;
      const cut = lastThatEnds(
        leafAt(sharedSchema, document, path),
        end,
        (at) => endlessAt(loaded, entry, at) !== null,
      );
      faults.add(
        strategy === null ? path : ['strategies', strategy],
        entry.path,
        'value',
        `its range ends at ${show(cut)} in place of ${show(end)}, where ${reason.replace(/;.*/su, '')}`,
        'warning',
      );
      return cut;
    });
    return low === range.low && high === range.high ? entry : { ...entry, range: rangeOf(low, high) };
  });
}

/** Values that say how often a tip chips in a scan, or how long one that has is used. */
const BEARS_ON_CHIPPING = /(?:^|\.)(?:hazards|load|pace|noticing)(?:\.|$)/u;

/** Why a tip chips without end where a value is put to an end of its range; null where none does. */
function endlessAt(loaded: LoadedScenario, entry: RegisterValue, end: Written): string | null {
  const there = withEnd(loaded, entry, end);
  return there.ok ? endless(there.scenario) : null;
}

function endless({ strategies }: LoadedScenario): string | null {
  const findings = strategies.flatMap(({ settings, workflow }) => chippingWithoutEnd(settings, workflow));
  return findings.at(0)?.message ?? null;
}

/** Halvings between a value and an end of its range. */
const HALVINGS = 30;
const DIGITS = 3;

/** How far a value may go towards an end. */
function lastThatEnds(found: FoundLeaf | null, end: Written, isEndless: (at: Written) => boolean): Written {
  const single = found === null ? null : asWritten(found.written);
  const [here, there] = [single, end].map((each) => (found === null ? null : numberIn(found.leaf, each)));
  if (found === null || single === null || typeof here !== 'number' || typeof there !== 'number') return end;
  const at = (number: number, digits?: number) => movedTo(found.leaf, single, number, digits) ?? single;
  let [near, far] = [here, there];
  for (let i = 0; i < HALVINGS; i += 1) {
    const middle = (near + far) / 2;
    if (isEndless(at(middle))) far = middle;
    else near = middle;
  }
  const rounded = at(near, DIGITS);
  return isEndless(rounded) ? at(near) : rounded;
}
