import * as z from 'zod';
import type { Path } from './places.js';
import { type Check, checks, type Group, groups, leaves, type Leaf, type LeafNature } from './schema/leaf.js';

export type Schema = z.core.$ZodType;
/** Data as YAML gives it, before any schema has seen it. */
export type RawMap = { [key: string]: unknown };

export function isMap(value: unknown): value is RawMap {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** The entry of a map or list, undefined where there is none; never an inherited one. */
export function entryOf(value: unknown, key: string | number): unknown {
  if (Array.isArray(value)) return typeof key === 'number' ? value[key] : undefined;
  return isMap(value) && Object.hasOwn(value, key) ? value[key] : undefined;
}

/** The same of a record of one type. */
export function entryIn<T>(record: Readonly<Record<string, T>>, key: string): T | undefined {
  return Object.hasOwn(record, key) ? record[key] : undefined;
}

/** What stands at a path; undefined where nothing does. */
export function dataAt(data: unknown, path: Path): unknown {
  return path.reduce(entryOf, data);
}

type Form =
  | { readonly form: 'map'; readonly entries: ReadonlyMap<string, Schema> }
  | { readonly form: 'record'; readonly key: Schema; readonly value: Schema }
  | { readonly form: 'list'; readonly item: Schema }
  | { readonly form: 'pair'; readonly items: readonly Schema[] }
  /** `by` is the key whose value says which option a map is. */
  | {
      readonly form: 'options';
      readonly options: readonly Schema[];
      readonly by: string | null;
      readonly hasWords: boolean;
    }
  | { readonly form: 'single'; readonly fits: (data: unknown) => boolean; readonly literal: unknown };

/** A schema as those need it who walk schema and data together. */
export type Outline = Form & {
  readonly leaf: (Leaf & LeafNature) | null;
  readonly group: Group | null;
  /** Whether values of it that stand together go together. */
  readonly check: Check | null;
  /** What a person would have written where nothing stands; undefined where something must stand or nothing may. */
  readonly preset: unknown;
  readonly mayBeLeftOut: boolean;
};

/** Outlines of the schemas met so far; a schema never changes. */
const outlines = new WeakMap<Schema, Outline>();

export function outlineOf(schema: Schema): Outline {
  const known = outlines.get(schema);
  if (known !== undefined) return known;
  const outline = drawOutline(schema);
  outlines.set(schema, outline);
  return outline;
}

function drawOutline(wrapped: Schema): Outline {
  let schema = wrapped;
  let leaf: Outline['leaf'] = null;
  let group: Group | null = null;
  let check: Outline['check'] = null;
  let preset: unknown;
  let mayBeLeftOut = false;
  for (;;) {
    if (schema instanceof z.ZodType) {
      leaf ??= leaves.get(schema) ?? null;
      group ??= groups.get(schema) ?? null;
      check ??= checks.get(schema) ?? null;
    }
    if (schema instanceof z.ZodPrefault) preset ??= schema.def.defaultValue;
    if (schema instanceof z.ZodPrefault || schema instanceof z.ZodOptional) {
      mayBeLeftOut = true;
      schema = schema.def.innerType;
    } else if (schema instanceof z.ZodPipe) schema = schema.def.in;
    else return { ...formOf(schema), leaf, group, check, preset, mayBeLeftOut };
  }
}

function formOf(schema: Schema): Form {
  if (schema instanceof z.ZodObject) return { form: 'map', entries: new Map(Object.entries(schema.shape)) };
  if (schema instanceof z.ZodRecord) return { form: 'record', key: schema.keyType, value: schema.valueType };
  if (schema instanceof z.ZodArray) return { form: 'list', item: schema.element };
  if (schema instanceof z.ZodTuple) return { form: 'pair', items: schema.def.items };
  if (schema instanceof z.ZodUnion) {
    const by = schema instanceof z.ZodDiscriminatedUnion ? schema.def.discriminator : null;
    return { form: 'options', options: schema.options, by, hasWords: schema.def.error !== undefined };
  }
  if (schema instanceof z.ZodNumber)
    return { form: 'single', fits: (data) => typeof data === 'number', literal: undefined };
  if (schema instanceof z.ZodString)
    return { form: 'single', fits: (data) => typeof data === 'string', literal: undefined };
  if (schema instanceof z.ZodLiteral) {
    const literal: unknown = schema.value;
    return { form: 'single', fits: (data) => data === literal, literal };
  }
  return { form: 'single', fits: () => false, literal: undefined };
}

/** The schema of one entry of a map or list that holds `data`; null where it can have no such entry. */
export function childOf(schema: Schema, data: unknown, key: string | number): Schema | null {
  const outline = outlineOf(schema);
  switch (outline.form) {
    case 'map':
      return outline.entries.get(String(key)) ?? null;
    case 'record':
      return outline.value;
    case 'list':
      return outline.item;
    case 'pair':
      return outline.items[Number(key)] ?? null;
    case 'options': {
      const fitting = evidentOption(outline.options, data);
      for (const option of fitting === null ? outline.options : [fitting, ...outline.options]) {
        const child = childOf(option, data, key);
        if (child !== null) return child;
      }
      return null;
    }
    case 'single':
      return null;
  }
}

/** The schema of what stands at a path, with it; null where the schema knows no such place. */
export function schemaAt(
  root: Schema,
  data: unknown,
  path: Path,
): { readonly schema: Schema; readonly data: unknown } | null {
  let at = { schema: root, data };
  for (const key of path) {
    const schema = childOf(at.schema, at.data, key);
    if (schema === null) return null;
    at = { schema, data: entryOf(at.data, key) };
  }
  return at;
}

/** Keys that a map with this schema and data may have; empty for records and single values. */
export function keysOf(schema: Schema, data: unknown): readonly string[] {
  const outline = outlineOf(schema);
  if (outline.form === 'map') return [...outline.entries.keys()];
  if (outline.form !== 'options') return [];
  const fitting = evidentOption(outline.options, data);
  return fitting === null ? outline.options.flatMap((option) => keysOf(option, data)) : keysOf(fitting, data);
}

/**
 * The form of several that a person evidently meant: of the maps the one with the fewest unknown and missing keys, else
 * the one of the same kind of value; null where none is.
 */
export function evidentOption(options: readonly Schema[], data: unknown): Schema | null {
  let best: Schema | null = null;
  let least = Infinity;
  for (const option of options) {
    const cost = misfit(outlineOf(option), data);
    if (cost < least) [best, least] = [option, cost];
  }
  return best;
}

const UNKNOWN_KEY = 3;
const MISSING_KEY = 1;
const WRONG_LITERAL = 1000;

function misfit(outline: Outline, data: unknown): number {
  if (outline.form === 'map') return isMap(data) ? misfitOfMap(outline.entries, data) : Infinity;
  if (outline.form === 'list') return Array.isArray(data) ? 0 : Infinity;
  return outline.form === 'single' && outline.fits(data) ? 0 : Infinity;
}

function misfitOfMap(entries: ReadonlyMap<string, Schema>, data: RawMap): number {
  let cost = 0;
  for (const key of Object.keys(data)) if (!entries.has(key)) cost += UNKNOWN_KEY;
  for (const [key, child] of entries) {
    const value = entryOf(data, key);
    const outline = outlineOf(child);
    if (value === undefined && !outline.mayBeLeftOut) cost += MISSING_KEY;
    if (outline.form === 'single' && outline.literal !== undefined && value !== outline.literal) cost += WRONG_LITERAL;
  }
  return cost;
}

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

/** The single value at a path, with what the schema says of it; null where none stands there. */
export function leafAt(root: Schema, data: unknown, path: Path): FoundLeaf | null {
  let group: Group | null = null;
  let at = { schema: root, data };
  for (const key of path) {
    group = outlineOf(at.schema).group ?? group;
    const schema = childOf(at.schema, at.data, key);
    if (schema === null) return null;
    at = { schema, data: entryOf(at.data, key) };
  }
  const { group: own } = outlineOf(at.schema);
  // Settings hold a value written short as the map that it stands for.
  if (own !== null && entryOf(at.data, own.shorthand) !== undefined)
    return leafAt(root, data, [...path, own.shorthand]);
  const found = leavesOf(at.schema, at.data, path, group).at(0);
  return found?.path.length === path.length ? found : null;
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
