import type { LoadedScenario } from './assemble.js';
import { describedAt } from './belonging.js';
import { leavesOf } from './leaf-walk.js';
import { pathKey } from './places.js';
import { sharedSchema } from './schema/scenario.js';
import { resolveValue } from './value-path.js';

/** What the value at a path is, in words, where the scenario has one there; else the path itself. */
export function describePath({ raw }: Pick<LoadedScenario, 'raw'>, path: string): string {
  const resolved = resolveValue(raw, path);
  if (!resolved.ok) return path;
  const { document, path: target } = resolved.place;
  const found = leavesOf(sharedSchema, document).find((leaf) => pathKey(leaf.path) === pathKey(target));
  return found === undefined ? path : describedAt(found, document);
}
