import { z } from 'zod';
import type { Path } from './document.js';
import type { Group, Leaf, LeafNature } from './schema/leaf.js';
import { bare, childOf, entryOf, evidentOption, isMap, type Schema } from './schema-walk.js';

/** One single value of a scenario, as written, with what the schema says of it. */
export interface FoundLeaf {
  readonly path: Path;
  readonly written: unknown;
  readonly leaf: Leaf & LeafNature;
  /** The group in which it stands, such as a step. */
  readonly group: Group | null;
}

/** Every described single value of data that fit the schema, in the schema's order. */
export function leavesOf(
  schema: Schema,
  data: unknown,
  path: Path = [],
  outer: Group | null = null,
): readonly FoundLeaf[] {
  if (data === undefined) return [];
  const { schema: core, leaf, group: own } = bare(schema);
  const group = own ?? outer;
  if (leaf !== null) return [{ path, written: data, leaf, group }];
  if (core instanceof z.ZodUnion) {
    const option = evidentOption(core, data);
    return option === null ? [] : leavesOf(option, data, path, group);
  }
  return keysIn(core, data).flatMap((key) => {
    const child = childOf(core, data, key);
    return child === null ? [] : leavesOf(child, entryOf(data, key), [...path, key], group);
  });
}

function keysIn(core: Schema, data: unknown): readonly (string | number)[] {
  if (Array.isArray(data)) return data.map((_, index) => index);
  if (!isMap(data)) return [];
  return core instanceof z.ZodObject ? Object.keys(core.shape) : Object.keys(data);
}
