import type { Path } from './places.js';
import type { Group, Leaf, LeafNature } from './schema/leaf.js';
import { childOf, entryOf, evidentOption, isMap, type Outline, outlineOf, type Schema } from './schema-walk.js';

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
  const outline = outlineOf(schema);
  const { leaf } = outline;
  const group = outline.group ?? outer;
  if (leaf !== null) return [{ path, written: data, leaf, group }];
  if (outline.form === 'options') {
    const option = evidentOption(outline.options, data);
    return option === null ? [] : leavesOf(option, data, path, group);
  }
  return entriesOf(schema, data).flatMap((entry) => leavesOf(entry.schema, entry.data, [...path, entry.key], group));
}

/** One entry of a map or list. */
export interface Entry {
  readonly key: string | number;
  readonly schema: Schema;
  readonly data: unknown;
}

/** What stands in a map or list, in the schema's order; of several forms, in the one that the data evidently have. */
export function entriesOf(schema: Schema, data: unknown): readonly Entry[] {
  const outline = outlineOf(schema);
  if (outline.form === 'options') {
    const option = evidentOption(outline.options, data);
    return option === null ? [] : entriesOf(option, data);
  }
  return keysIn(outline, data).flatMap((key) => {
    const child = childOf(schema, data, key);
    return child === null ? [] : [{ key, schema: child, data: entryOf(data, key) }];
  });
}

function keysIn(outline: Outline, data: unknown): readonly (string | number)[] {
  if (Array.isArray(data)) return data.map((_, index) => index);
  if (!isMap(data)) return [];
  return outline.form === 'map' ? [...outline.entries.keys()] : Object.keys(data);
}
