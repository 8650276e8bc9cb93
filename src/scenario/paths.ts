import * as z from 'zod';
import type { Path } from './places.js';
import { suggestion } from './nearest.js';
import { childOf, entryOf, isMap, keysOf, outlineOf, type Schema } from './schema-walk.js';
import { show } from './show.js';

/** By which of their entries the items of a list are named in a path. */
const NAMING = ['name', 'cause'] as const;

export type ResolvedPath =
  { readonly ok: true; readonly path: Path } | { readonly ok: false; readonly message: string };

/**
 * The place that a written path such as `tips.sharp.hazards.breakage.life.mean` leads to in data with all defaults
 * filled in. Items of a list go by their number from 0, or by their `name` or `cause`. Records take new keys.
 */
export function resolvePath(root: Schema, document: unknown, text: string): ResolvedPath {
  let schema = root;
  let data = document;
  const path: (string | number)[] = [];
  for (const segment of text.split('.')) {
    const key = Array.isArray(data) ? itemIndex(data, segment) : segment;
    const child = key === null ? null : childOf(schema, data, key);
    if (key === null || child === null || !mayHaveKey(schema, key))
      return { ok: false, message: unknownPath(text, path, segment, schema, data) };
    path.push(key);
    data = entryOf(data, key);
    schema = child;
  }
  return { ok: true, path };
}

function mayHaveKey(holder: Schema, key: string | number): boolean {
  const outline = outlineOf(holder);
  return outline.form !== 'record' || z.safeParse(outline.key, key).success;
}

function itemIndex(items: readonly unknown[], segment: string): number | null {
  if (/^\d{1,5}$/u.test(segment)) return Number(segment) < items.length ? Number(segment) : null;
  const named = items.flatMap((item, index) =>
    NAMING.some((naming) => entryOf(item, naming) === segment) ? [index] : [],
  );
  return named.length === 1 ? (named[0] ?? null) : null;
}

function unknownPath(text: string, path: Path, segment: string, schema: Schema, data: unknown): string {
  const before = path.map((key) => `${key}.`).join('');
  if (Array.isArray(data)) {
    const names = data.flatMap((_, index) => itemName(data, index) ?? []);
    const twice = names.filter((name) => name === segment).length > 1;
    return `unknown path ${show(text)}: ${twice ? `more than one item is called ${show(segment)}; use its number from 0` : `the list has no item ${show(segment)}${suggestion(segment, names)}`}`;
  }
  const wanted = isMap(data) && keysOf(schema, data).length === 0 ? Object.keys(data) : keysOf(schema, data);
  if (wanted.length === 0) return `unknown path ${show(text)}: ${show(path.join('.'))} is a single value`;
  return `unknown path ${show(text)}: no ${show(segment)} there${suggestion(segment, wanted).replace('did you mean `', `did you mean \`${before}`)}`;
}

/** The name of an item of a list, null where it has none or shares it. */
export function itemName(items: readonly unknown[], index: number): string | null {
  const nameOf = (item: unknown) =>
    NAMING.map((naming) => entryOf(item, naming)).find((name) => typeof name === 'string');
  const name = nameOf(items[index]);
  if (typeof name !== 'string' || /^\d{1,5}$|\./u.test(name)) return null;
  return items.filter((item) => nameOf(item) === name).length === 1 ? name : null;
}

/** A path as a person writes it: items of a list by their name where they have one. */
export function writtenPath(document: unknown, path: Path): string {
  let data = document;
  const segments: string[] = [];
  for (const key of path) {
    segments.push(String(typeof key === 'number' && Array.isArray(data) ? (itemName(data, key) ?? key) : key));
    data = entryOf(data, key);
  }
  return segments.join('.');
}
