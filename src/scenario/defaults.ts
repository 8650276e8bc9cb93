import { z } from 'zod';
import { bare, entryOf, evidentOption, isMap, type RawMap, type Schema } from './schema-walk.js';

/**
 * Raw data with every default filled in as a person would write it, units and all. What does not fit the schema is left
 * as it is, for the schema to complain about. The data given are not changed.
 */
export function fillDefaults(schema: Schema, data: unknown): unknown {
  if (schema instanceof z.ZodPrefault)
    return fillDefaults(schema.def.innerType, data === undefined ? schema.def.defaultValue : data);
  if (data === undefined) return undefined;
  const { schema: core, group } = bare(schema);
  if (core instanceof z.ZodObject) return isMap(data) ? filledMap(core, data) : data;
  if (core instanceof z.ZodRecord && isMap(data)) {
    return Object.fromEntries(Object.entries(data).map(([key, value]) => [key, fillDefaults(core.valueType, value)]));
  }
  if (core instanceof z.ZodArray && Array.isArray(data))
    return data.map((value: unknown) => fillDefaults(core.element, value));
  if (core instanceof z.ZodUnion) {
    const completed = isMap(data) ? completedMap(data, group?.completion) : data;
    const option = evidentOption(core, completed);
    return option === null ? completed : fillDefaults(option, completed);
  }
  return data;
}

function filledMap(schema: z.ZodObject, data: RawMap): RawMap {
  const filled: RawMap = { ...data };
  for (const [key, child] of Object.entries(schema.shape)) {
    const value = fillDefaults(child, entryOf(data, key));
    if (value !== undefined) filled[key] = value;
  }
  return filled;
}

function completedMap(
  data: RawMap,
  completion: { readonly entries: RawMap; readonly unless: readonly string[] } | undefined,
): RawMap {
  if (completion === undefined || completion.unless.some((key) => Object.hasOwn(data, key))) return data;
  return { ...completion.entries, ...data };
}
