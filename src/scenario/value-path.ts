import { resolvePath } from './paths.js';
import { type Path, pathKey, startsWith } from './places.js';
import { type Scenario, scenarioSchema } from './schema/scenario.js';
import type { RawMap } from './schema-walk.js';
import { show } from './show.js';
import { inPlace, type LaidStrategy, MERGED, type Overlaid, type OwnValue } from './strategies.js';

/** A scenario as paths are followed through it, as written or as typed: both have the same keys. */
export interface Laid {
  readonly shared: RawMap;
  readonly strategies: readonly { readonly name: string; readonly whole: RawMap; readonly own: readonly OwnValue[] }[];
}

/** The scenario as written, with defaults. */
export function writtenIn(shared: RawMap, strategies: readonly Overlaid[]): Laid {
  return { shared, strategies: strategies.map(({ name, raw, own }) => ({ name, whole: raw, own })) };
}

/** The part of a loaded scenario that campaigns follow. */
export interface Settled {
  readonly base: Scenario;
  readonly strategies: readonly LaidStrategy[];
}

/** Settings as they are now. */
export function settingsIn({ base, strategies }: Settled): Laid {
  return {
    shared: { ...base },
    strategies: strategies.map(({ name, settings, own }) => ({ name, whole: { ...settings }, own })),
  };
}

/** Where a path of `sources`, `ranges` or the register leads. */
export interface ValuePlace {
  /** Number of the strategy whose own value it is; null for the shared part. */
  readonly strategy: number | null;
  /** In the scenario as that strategy follows it. */
  readonly path: Path;
  /** That scenario. */
  readonly document: RawMap;
}

export type ResolvedValue =
  { readonly ok: true; readonly place: ValuePlace } | { readonly ok: false; readonly message: string };

/**
 * The value, or all values below it, to which a path leads: in the shared part as `tips.sharp.price`, or what a strategy
 * overrides as `strategies.hopping.set.tips.sharp.price` and `strategies.hopping.rules.after`.
 */
export function resolveValue({ shared, strategies }: Laid, text: string): ResolvedValue {
  const [first, name, part = '', ...rest] = text.split('.');
  const isOwn = first === 'strategies' && (part === 'set' || MERGED.includes(part));
  const resolved = resolvePath(scenarioSchema, shared, isOwn ? `strategies.${name}` : text);
  if (!resolved.ok) return resolved;
  const index = resolved.path.at(1);
  if (!isOwn || typeof index !== 'number')
    return { ok: true, place: { strategy: null, path: resolved.path, document: shared } };
  const { whole, own, name: called } = strategies[index];
  const inner = (part === 'set' ? rest : [part, ...rest]).join('.');
  const found = inner === '' ? { ok: true as const, path: [] } : resolvePath(scenarioSchema, whole, inner);
  if (!found.ok) return found;
  const { path } = found;
  const isTouched = inPlace(own).some(({ target }) => startsWith(target, path) || startsWith(path, target));
  return isTouched
    ? { ok: true, place: { strategy: index, path, document: whole } }
    : {
        ok: false,
        message: `unknown path ${show(text)}: the strategy ${show(called)} overrides nothing there`,
      };
}

/** One text for one place; that of what holds it comes with the last key left out. */
export function placeKey(strategy: number | null, path: Path): string {
  return pathKey(strategy === null ? path : ['strategies', strategy, ...path]);
}
