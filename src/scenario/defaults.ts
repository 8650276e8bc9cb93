import type { Group } from './schema/leaf.js';
import { entryOf, evidentOption, isMap, outlineOf, type RawMap, type Schema } from './schema-walk.js';

/**
 * Raw data with every default filled in as a person would write it, units and all. What does not fit the schema is left
 * as it is, for the schema to complain about. The data given are not changed.
 */
export function fillDefaults(schema: Schema, written: unknown): unknown {
  const outline = outlineOf(schema);
  const data = written === undefined ? outline.preset : written;
  switch (outline.form) {
    case 'map':
      return isMap(data) ? filledMap(outline.entries, data) : data;
    case 'record':
      return isMap(data)
        ? Object.fromEntries(Object.entries(data).map(([key, value]) => [key, fillDefaults(outline.value, value)]))
        : data;
    case 'list':
      return Array.isArray(data) ? data.map((value: unknown) => fillDefaults(outline.item, value)) : data;
    case 'options': {
      const completed = isMap(data) ? completedMap(data, outline.group) : data;
      const option = evidentOption(outline.options, completed);
      return option === null ? completed : fillDefaults(option, completed);
    }
    case 'pair':
    case 'single':
      return data;
  }
}

function filledMap(entries: ReadonlyMap<string, Schema>, data: RawMap): RawMap {
  const filled: RawMap = { ...data };
  for (const [key, child] of entries) {
    const value = fillDefaults(child, entryOf(data, key));
    if (value !== undefined) filled[key] = value;
  }
  return filled;
}

function completedMap(data: RawMap, group: Group | null): RawMap {
  const completion = group?.completion;
  if (completion === undefined || completion.unless.some((key) => Object.hasOwn(data, key))) return data;
  return { ...completion.entries, ...data };
}
