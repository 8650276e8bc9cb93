import type { Path } from './places.js';
import { childOf, entryOf, isMap, outlineOf, type RawMap, type Schema } from './schema-walk.js';
import { show } from './show.js';

/** A deep copy of plain data. */
export function copyOf(data: RawMap): RawMap;
export function copyOf(data: unknown): unknown;
export function copyOf(data: unknown): unknown {
  if (Array.isArray(data)) return data.map((item: unknown) => copyOf(item));
  return isMap(data) ? Object.fromEntries(Object.entries(data).map(([key, value]) => [key, copyOf(value)])) : data;
}

/**
 * Writes one value into plain data at a path that the schema knows; maps on the way are made, and a value written short
 * (`45 min` for a step) becomes the map that it stands for. Null takes the value away, so that its default comes back.
 * Gives null, or what is in the way.
 */
export function writeAt(root: Schema, document: RawMap, path: Path, value: unknown): string | null {
  let schema = root;
  let holder: unknown = document;
  for (const [depth, key] of path.entries()) {
    const last = depth === path.length - 1;
    const inTheWay = mixedForms(schema, holder, key);
    if (inTheWay !== null && value !== null) return inTheWay;
    const child = childOf(schema, holder, key);
    if (child === null) return `${show(path.slice(0, depth).join('.'))} holds nothing of that name`;
    if (last) put(holder, key, value);
    else if (!isContainer(entryOf(holder, key))) put(holder, key, expanded(child, entryOf(holder, key)));
    holder = entryOf(holder, key);
    schema = child;
  }
  return null;
}

function isContainer(value: unknown): boolean {
  return isMap(value) || Array.isArray(value);
}

/** The map that a value written short stands for; an empty one where nothing was written. */
function expanded(schema: Schema, written: unknown): RawMap {
  const { group } = outlineOf(schema);
  return group === null || written === undefined || written === null ? {} : { [group.shorthand]: written };
}

function put(holder: unknown, key: string | number, value: unknown): void {
  if (Array.isArray(holder) && typeof key === 'number') {
    if (value === null) holder.splice(key, 1);
    else holder[key] = value;
  } else if (isMap(holder)) {
    const name = String(key);
    if (value === null) Reflect.deleteProperty(holder, name);
    else holder[name] = value;
  }
}

/** A step has its time in one of several forms; one entry of another form cannot be set alone. */
function mixedForms(schema: Schema, holder: unknown, key: string | number): string | null {
  const { group } = outlineOf(schema);
  const completion = group?.completion;
  if (completion === undefined || !isMap(holder) || typeof key !== 'string' || !completion.unless.includes(key))
    return null;
  const written = completion.unless.filter((each) => Object.hasOwn(holder, each));
  if (written.length === 0 || written.includes(key)) return null;
  return `\`${key}\` does not go with ${written.map((each) => `\`${each}\``).join(', ')}, in which this time is written; set the whole step, such as \`{usual: 3 min, p90: 5 min}\``;
}

/** Lays a map over another, entry by entry; lists and single values are replaced. Calls `wrote` for each value written. */
export function mergeInto(base: RawMap, over: RawMap, path: Path, wrote: (path: Path) => void): void {
  for (const [key, value] of Object.entries(over)) {
    const held = entryOf(base, key);
    if (isMap(value) && isMap(held)) mergeInto(held, value, [...path, key], wrote);
    else {
      put(base, key, copyOf(value));
      wrote([...path, key]);
    }
  }
}
