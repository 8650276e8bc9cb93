import type { Path } from './places.js';
import { copyOf, mergeInto, writeAt } from './edit.js';
import { fillDefaults } from './defaults.js';
import { resolvePath } from './paths.js';
import type { Problem } from './problems.js';
import { scenarioSchema, sharedSchema } from './schema/scenario.js';
import { entryOf, isMap, type RawMap } from './schema-walk.js';
import { show } from './show.js';

/** A value that a strategy lays over the shared part: where it goes, and where the strategy says so. */
export interface Override {
  readonly target: Path;
  readonly writtenAt: Path;
  /** It takes an item of a list away, in whose place the next one then stands. */
  readonly takesItemAway: boolean;
}

/** A strategy's whole scenario as raw data, with what it overrides and what is wrong with that. */
export interface Overlaid {
  readonly raw: RawMap;
  /** As `raw`, before the defaults of what the strategy wrote or took away were filled in. */
  readonly unfilled: RawMap;
  readonly overrides: readonly Override[];
  readonly problems: readonly Problem[];
}

/** What all strategies must share, or there is nothing to compare. */
const SHARED = ['title', 'about', 'seed', 'cautions', 'strategies', 'sources', 'ranges'] as const;
/** Parts that a strategy overrides under their own names, entry by entry. */
export const MERGED: readonly string[] = ['rules', 'pace'];

/** A part of a scenario that a strategy may override. */
export type Part = Exclude<keyof typeof scenarioSchema.shape, (typeof SHARED)[number]>;

/**
 * Lays strategy number `index` over the shared part: `rules` and `pace` entry by entry, then `set` path by path.
 * `filled` is the shared part with its defaults; it is not changed. Where `only` names a part, that one alone is laid out.
 */
export function overlay(filled: RawMap, index: number, only?: Part): Overlaid {
  const raw = copyOf(only === undefined ? filled : { [only]: filled[only] });
  const strategies = entryOf(filled, 'strategies');
  const strategy = Array.isArray(strategies) ? entryOf(strategies, index) : undefined;
  const overrides: Override[] = [];
  const problems: Problem[] = [];
  for (const part of MERGED) {
    const over = entryOf(strategy, part);
    const held = entryOf(raw, part);
    if (isMap(over) && isMap(held)) {
      mergeInto(held, over, [part], (target) =>
        overrides.push({ target, writtenAt: ['strategies', index, ...target], takesItemAway: false }),
      );
    }
  }
  const set = entryOf(strategy, 'set');
  for (const [text, value] of isMap(set) ? Object.entries(set) : []) {
    if (only !== undefined && partOf(text) !== only) continue;
    const writtenAt = ['strategies', index, 'set', text];
    const wrong = applyOne(raw, text, value, (target) => {
      const takesItemAway = value === null && typeof target.at(-1) === 'number';
      if (takesItemAway) closeUp(overrides, target);
      overrides.push({ target, writtenAt, takesItemAway });
    });
    if (wrong !== null) problems.push({ path: writtenAt, at: 'key', message: wrong });
  }
  return { raw: overrides.length === 0 ? raw : refilled(raw, only), unfilled: raw, overrides, problems };
}

function refilled(raw: RawMap, only: Part | undefined): RawMap {
  if (only !== undefined) return { [only]: fillDefaults(scenarioSchema.shape[only], raw[only]) };
  const whole = fillDefaults(sharedSchema, raw);
  return isMap(whole) ? whole : raw;
}

/** An item of a list goes: what was laid over it is gone too, and what was laid over later items has moved up by one. */
function closeUp(overrides: Override[], gone: Path): void {
  const depth = gone.length - 1;
  const number = Number(gone[depth]);
  const kept = overrides.flatMap((override) => {
    const { target } = override;
    const at = target[depth];
    if (typeof at !== 'number' || at < number || !gone.slice(0, depth).every((key, i) => target[i] === key))
      return [override];
    return at === number
      ? []
      : [{ ...override, target: [...target.slice(0, depth), at - 1, ...target.slice(depth + 1)] }];
  });
  overrides.splice(0, overrides.length, ...kept);
}

function applyOne(raw: RawMap, text: string, value: unknown, wrote: (target: Path) => void): string | null {
  const first = partOf(text);
  if (SHARED.some((shared) => shared === first))
    return `${show(first)} is shared by all strategies; a strategy cannot set it`;
  const resolved = resolvePath(scenarioSchema, raw, text);
  if (!resolved.ok) return resolved.message;
  wrote(resolved.path);
  return writeAt(scenarioSchema, raw, resolved.path, copyOf(value));
}

/** The first segment of a written path. */
function partOf(text: string): string {
  return text.split('.', 1)[0] ?? '';
}

/** Whether a strategy may override the part of this name. */
export function isPart(key: unknown): key is Part {
  return (
    typeof key === 'string' && Object.hasOwn(scenarioSchema.shape, key) && !SHARED.some((shared) => shared === key)
  );
}
