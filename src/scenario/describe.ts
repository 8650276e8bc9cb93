import type { LoadedScenario } from './assemble.js';
import { describedAt } from './belonging.js';
import { type FoundLeaf, leavesOf } from './leaf-walk.js';
import { pathKey } from './places.js';
import { sharedSchema } from './schema/scenario.js';
import type { RawMap } from './schema-walk.js';
import { resolveValue } from './value-path.js';

/** What the value at a path is, in words, where the scenario has one there; else the path itself. */
export function describePath(loaded: Pick<LoadedScenario, 'raw'>, path: string): string {
  const found = leafAt(loaded, path);
  return found === null ? path : describedAt(found, found.document);
}

/** The single value at a path, and the scenario in which it stands; null where there is none. */
export function leafAt(
  { raw }: Pick<LoadedScenario, 'raw'>,
  path: string,
): (FoundLeaf & { readonly document: RawMap }) | null {
  const resolved = resolveValue(raw, path);
  if (!resolved.ok) return null;
  const { document, path: target } = resolved.place;
  const found = leavesOf(sharedSchema, document).find((leaf) => pathKey(leaf.path) === pathKey(target));
  return found === undefined ? null : { ...found, document };
}
