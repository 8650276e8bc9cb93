import { z } from 'zod';
import { type Group, groups, leaves, type Leaf, type LeafNature } from './schema/leaf.js';

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

/** A schema without the wrappers that only fill in, allow absence or convert what was read. */
export interface Bare {
  readonly schema: Schema;
  readonly leaf: (Leaf & LeafNature) | null;
  readonly group: Group | null;
}

export function bare(wrapped: Schema): Bare {
  let schema = wrapped;
  let leaf: Bare['leaf'] = null;
  let group: Group | null = null;
  for (;;) {
    leaf ??= leaves.get(asFull(schema)) ?? null;
    group ??= groups.get(asFull(schema)) ?? null;
    const inner = innerOf(schema);
    if (inner === null) return { schema, leaf, group };
    schema = inner;
  }
}

function asFull(schema: Schema): z.ZodType {
  if (schema instanceof z.ZodType) return schema;
  throw new Error('the scenario schema is made of full zod schemas');
}

function innerOf(schema: Schema): Schema | null {
  if (schema instanceof z.ZodPrefault || schema instanceof z.ZodOptional) return schema.def.innerType;
  return schema instanceof z.ZodPipe ? schema.def.in : null;
}

/** The schema of one entry of a map or list that holds `data`; null where it can have no such entry. */
export function childOf(wrapped: Schema, data: unknown, key: string | number): Schema | null {
  const { schema } = bare(wrapped);
  if (schema instanceof z.ZodObject)
    return Object.hasOwn(schema.shape, key) ? (schema.shape[String(key)] ?? null) : null;
  if (schema instanceof z.ZodRecord) return schema.valueType;
  if (schema instanceof z.ZodArray) return schema.element;
  if (schema instanceof z.ZodTuple) return schema.def.items[Number(key)] ?? null;
  if (schema instanceof z.ZodUnion) {
    const fitting = evidentOption(schema, data);
    const options = fitting === null ? schema.options : [fitting, ...schema.options];
    for (const option of options) {
      const child = childOf(option, data, key);
      if (child !== null) return child;
    }
  }
  return null;
}

/** Keys that a map with this schema and data may have; empty for records and single values. */
export function keysOf(wrapped: Schema, data: unknown): readonly string[] {
  const { schema } = bare(wrapped);
  if (schema instanceof z.ZodObject) return Object.keys(schema.shape);
  if (schema instanceof z.ZodUnion) {
    const fitting = evidentOption(schema, data);
    return fitting === null ? schema.options.flatMap((option) => keysOf(option, data)) : keysOf(fitting, data);
  }
  return [];
}

/**
 * The form of several that a person evidently meant: of the maps the one with the fewest unknown and missing keys, else
 * the one of the same kind of value; null where none is.
 */
export function evidentOption(union: z.ZodUnion, data: unknown): Schema | null {
  let best: Schema | null = null;
  let least = Infinity;
  for (const option of union.options) {
    const cost = misfit(option, data);
    if (cost < least) [best, least] = [option, cost];
  }
  return best;
}

const UNKNOWN_KEY = 3;
const MISSING_KEY = 1;
const WRONG_LITERAL = 1000;

function misfit(wrapped: Schema, data: unknown): number {
  const { schema } = bare(wrapped);
  if (schema instanceof z.ZodObject) return isMap(data) ? misfitOfMap(schema, data) : Infinity;
  if (schema instanceof z.ZodNumber) return typeof data === 'number' ? 0 : Infinity;
  if (schema instanceof z.ZodString) return typeof data === 'string' ? 0 : Infinity;
  if (schema instanceof z.ZodArray) return Array.isArray(data) ? 0 : Infinity;
  if (schema instanceof z.ZodLiteral) return schema.value === data ? 0 : Infinity;
  return Infinity;
}

function misfitOfMap(schema: z.ZodObject, data: RawMap): number {
  let cost = 0;
  for (const key of Object.keys(data)) if (!Object.hasOwn(schema.shape, key)) cost += UNKNOWN_KEY;
  for (const [key, child] of Object.entries(schema.shape)) {
    const value = entryOf(data, key);
    if (value === undefined && !mayBeLeftOut(child)) cost += MISSING_KEY;
    if (child instanceof z.ZodLiteral && value !== child.value) cost += WRONG_LITERAL;
  }
  return cost;
}

export function mayBeLeftOut(schema: Schema): boolean {
  return schema instanceof z.ZodPrefault || schema instanceof z.ZodOptional;
}
