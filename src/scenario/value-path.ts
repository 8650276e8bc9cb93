import { resolvePath } from './paths.js';
import { type Path, pathKey } from './places.js';
import { scenarioSchema } from './schema/scenario.js';
import { entryOf, type RawMap } from './schema-walk.js';
import { show } from './show.js';
import { MERGED, overlay } from './strategies.js';

/** Where a path of `sources`, `ranges` or the register leads. */
export interface ValuePlace {
  /** Number of the strategy whose own value it is; null for the shared part. */
  readonly strategy: number | null;
  /** In the scenario as that strategy follows it. */
  readonly path: Path;
  /** That scenario, as a person would write it. */
  readonly document: RawMap;
}

export type ResolvedValue =
  { readonly ok: true; readonly place: ValuePlace } | { readonly ok: false; readonly message: string };

/**
 * The value, or all values below it, to which a path leads: in the shared part as `tips.sharp.price`, or what a strategy
 * overrides as `strategies.hopping.set.tips.sharp.price` and `strategies.hopping.rules.after`. `filled` is the shared part
 * with its defaults.
 */
export function resolveValue(filled: RawMap, text: string): ResolvedValue {
  const [first, name, part = '', ...rest] = text.split('.');
  const isOwn = first === 'strategies' && (part === 'set' || MERGED.includes(part));
  const resolved = resolvePath(scenarioSchema, filled, isOwn ? `strategies.${name}` : text);
  if (!resolved.ok) return resolved;
  const index = resolved.path.at(1);
  if (!isOwn || typeof index !== 'number')
    return { ok: true, place: { strategy: null, path: resolved.path, document: filled } };
  return resolveOwn(filled, index, text, (part === 'set' ? rest : [part, ...rest]).join('.'));
}

function resolveOwn(filled: RawMap, strategy: number, text: string, inner: string): ResolvedValue {
  const { raw, overrides } = overlay(filled, strategy);
  const resolved = inner === '' ? { ok: true as const, path: [] } : resolvePath(scenarioSchema, raw, inner);
  if (!resolved.ok) return resolved;
  const { path } = resolved;
  const isTouched = overrides.some(({ target }) => startsWith(target, path) || startsWith(path, target));
  if (isTouched) return { ok: true, place: { strategy, path, document: raw } };
  const name = show(entryOf(entryOf(filled['strategies'], strategy), 'name'));
  return { ok: false, message: `the path ${show(text)} leads nowhere: the strategy ${name} overrides nothing there` };
}

export function startsWith(path: Path, start: Path): boolean {
  return start.length <= path.length && start.every((key, depth) => path[depth] === key);
}

/** One text for one place; that of what holds it comes with the last key left out. */
export function placeKey(strategy: number | null, path: Path): string {
  return pathKey(strategy === null ? path : ['strategies', strategy, ...path]);
}
