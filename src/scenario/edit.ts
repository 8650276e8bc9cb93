import type { Path } from './places.js';
import { childOf, entryOf, isMap, outlineOf, type RawMap, type Schema } from './schema-walk.js';
import { show } from './show.js';

/** Data with a value written into them, or what is in the way. */
export type Edited = { readonly ok: true; readonly data: RawMap } | { readonly ok: false; readonly message: string };

/**
 * The same data with another value at a path; what is not on the way to it is shared with the data given, and all of it where
 * nothing changes. Undefined takes an entry away.
 */
export function replacedAt<Data>(data: Data, path: Path, value: unknown): Data {
  return replacing([path])(data, [value]);
}

/** The way to values: an entry for each key, and at its end the number of the value. */
interface Way {
  value: number | null;
  readonly entries: Map<string | number, Way>;
}

/** The same for many values at once, of which no path begins with another; what lies on several ways is copied once. */
export function replacing(paths: readonly Path[]): <Data>(data: Data, values: readonly unknown[]) => Data {
  const root: Way = { value: null, entries: new Map() };
  paths.forEach((path, value) => {
    let at = root;
    for (const key of path) {
      const next = at.entries.get(key) ?? { value: null, entries: new Map() };
      at.entries.set(key, next);
      at = next;
    }
    at.value = value;
  });
  function write<Data>(data: Data, values: readonly unknown[]): Data;
  // A path says nothing of types: whoever puts a value into settings has had it read by the schema of its place.
  function write(data: unknown, values: readonly unknown[]): unknown {
    return replaced(data, root, values);
  }
  return write;
}

function replaced(data: unknown, { value, entries }: Way, values: readonly unknown[]): unknown {
  if (value !== null) return isSame(data, values[value]) ? data : values[value];
  const changed = [...entries].flatMap(([key, way]): readonly (readonly [string | number, unknown])[] => {
    const before = entryOf(data, key);
    const after = replaced(before, way, values);
    return after === before ? [] : [[key, after]];
  });
  return changed.length === 0 ? data : withEntries(data, changed);
}

function withEntries(data: unknown, changed: readonly (readonly [string | number, unknown])[]): unknown {
  const news = Object.fromEntries(changed);
  if (Array.isArray(data) && changed.every(([key]) => typeof key === 'number'))
    return Object.values(withoutGaps({ ...Object.fromEntries(data.entries()), ...news }));
  return withoutGaps(isMap(data) ? { ...data, ...news } : news);
}

/** Undefined takes an entry away. */
function withoutGaps(entries: RawMap): RawMap {
  const all = Object.entries(entries);
  return all.every(([, entry]) => entry !== undefined)
    ? entries
    : Object.fromEntries(all.filter(([, entry]) => entry !== undefined));
}

function isSame(one: unknown, other: unknown): boolean {
  return typeof one === 'object' && typeof other === 'object'
    ? JSON.stringify(one) === JSON.stringify(other)
    : one === other;
}

/**
 * Writes one value into data as a person writes them, at a path that the schema knows; maps on the way are made, and a value
 * written short (`45 min` for a step) becomes the map that it stands for. Null takes the value away, so that its default
 * comes back.
 */
export function writtenInto(root: Schema, document: RawMap, path: Path, value: unknown): Edited {
  let schema = root;
  let data = document;
  for (const [depth, key] of path.entries()) {
    const here = path.slice(0, depth);
    const holder = here.reduce<unknown>(entryOf, data);
    const inTheWay = value === null ? null : mixedForms(schema, holder, key);
    if (inTheWay !== null) return { ok: false, message: inTheWay };
    const child = childOf(schema, holder, key);
    if (child === null) return { ok: false, message: `${show(here.join('.'))} has no entry of that name` };
    const held = entryOf(holder, key);
    const isLast = depth === path.length - 1;
    if (isLast) data = replacedAt(data, path, value ?? undefined);
    else if (!isMap(held) && !Array.isArray(held)) data = replacedAt(data, [...here, key], expanded(child, held));
    schema = child;
  }
  return { ok: true, data };
}

/** The map that a value written short stands for; an empty one where nothing was written. */
function expanded(schema: Schema, written: unknown): RawMap {
  const { group } = outlineOf(schema);
  return group === null || written === undefined || written === null ? {} : { [group.shorthand]: written };
}

/** A step has its time in one of several forms; one entry of another form cannot be set alone. Null where it can. */
export function mixedForms(schema: Schema, holder: unknown, key: string | number): string | null {
  const completion = outlineOf(schema).group?.completion;
  if (completion === undefined || !isMap(holder) || typeof key !== 'string' || !completion.unless.includes(key))
    return null;
  const written = completion.unless.filter((each) => Object.hasOwn(holder, each));
  if (written.length === 0 || written.includes(key)) return null;
  return `\`${key}\` does not go with ${written.map((each) => `\`${each}\``).join(', ')}, in which this time is written; set the whole step, such as \`{usual: 3 min, p90: 5 min}\``;
}

/** Single values and lists of a map, each with its path below `path`. */
export function entriesBelow(map: RawMap, path: Path): readonly (readonly [Path, unknown])[] {
  return Object.entries(map).flatMap(([key, value]) =>
    isMap(value) ? entriesBelow(value, [...path, key]) : [[[...path, key], value] as const],
  );
}
