import fc from 'fast-check';
import { z } from 'zod';
import { DIMENSIONS, type Dimension } from '../../src/scenario/quantity.js';
import type { Leaf, LeafNature } from '../../src/scenario/schema/leaf.js';
import { outlineOf, type Schema } from '../../src/scenario/schema-walk.js';

/** Anything that YAML can say. */
export type Data = Readonly<Record<string, unknown>>;

export function isData(value: unknown): value is Data {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** What may be written at some places, by the last key of their path, where the schema alone does not tell. */
export type Hints = ReadonlyMap<string, fc.Arbitrary<unknown>>;

/** An entry that may be left out is written once in so many cases. */
const LEFT_OUT = 4;

/** Values that a person may write for a schema, in all of its forms and up to the ends of its limits; references are none of its business. */
export function written(schema: Schema, hints: Hints, key = ''): fc.Arbitrary<unknown> {
  const hint = hints.get(key);
  if (hint !== undefined) return hint;
  const outline = outlineOf(schema);
  if (outline.leaf !== null) return writtenLeaf(outline.leaf, schema, hints);
  switch (outline.form) {
    case 'map': {
      const entries = [...outline.entries].map(([name, child]): [string, fc.Arbitrary<unknown>] => [
        name,
        outlineOf(child).mayBeLeftOut
          ? fc.oneof(
              { arbitrary: fc.constant(undefined), weight: LEFT_OUT - 1 },
              { arbitrary: written(child, hints, name), weight: 1 },
            )
          : written(child, hints, name),
      ]);
      return fc.record(Object.fromEntries(entries)).map((map) => ordered(withoutGaps(map)));
    }
    case 'record':
      return fc.constant({});
    case 'list':
      return fc.array(written(outline.item, hints), { minLength: 1, maxLength: 2 });
    case 'pair':
      return fc.tuple(...outline.items.map((item) => written(item, hints)));
    case 'options':
      return fc.oneof(...outline.options.map((option) => written(option, hints)));
    case 'single':
      return outline.literal === undefined ? words(schema) : fc.constant(outline.literal);
  }
}

function withoutGaps(map: Data): Data {
  return Object.fromEntries(Object.entries(map).filter(([, value]) => value !== undefined));
}

/** Keys whose values have an order of size. */
const ORDERED = [
  ['min', 'mode', 'max'],
  ['usual', 'p90'],
];

function ordered(map: Data): Data {
  const keys = ORDERED.find((each) => each.every((key) => Object.hasOwn(map, key)));
  if (keys === undefined) return map;
  const sizes = keys.map((key) => map[key]).sort((a, b) => secondsIn(a) - secondsIn(b));
  return { ...map, ...Object.fromEntries(keys.map((key, i) => [key, sizes[i]])) };
}

function secondsIn(text: unknown): number {
  const [number = '', unit = ''] = String(text).split(' ');
  return Number(number) * (new Map(Object.entries(DIMENSIONS.time.written)).get(unit) ?? 1);
}

function writtenLeaf(leaf: Leaf & LeafNature, schema: Schema, hints: Hints): fc.Arbitrary<unknown> {
  switch (leaf.form) {
    case 'number':
      return isWhole(schema)
        ? fc.oneof(fc.integer({ min: leaf.min, max: Math.min(leaf.max, leaf.min + 8) }), fc.constant(leaf.max))
        : numberWithin(leaf.min, leaf.max);
    case 'money':
      return fc.integer({ min: 0, max: 100_000 }).map((cents) => `${String(cents / 100)} EUR`);
    case 'exposure':
      return hints.get('exposure') ?? fc.integer({ min: 1, max: 500 });
    case 'quantity':
      return quantityWithin(leaf.dimension, leaf.min, leaf.max);
    case 'flag':
      return fc.boolean();
    case 'choice':
      return hints.get('choice') ?? fc.constant('always');
  }
}

function isWhole(schema: Schema): boolean {
  const checked = z.safeParse(schema, 1.5);
  return !checked.success && checked.error.issues.some((issue) => issue.code === 'invalid_type');
}

/** The ends, and what lies between, small as often as large; of a wide span the middle of its decades most of all. */
function numberWithin(min: number, max: number): fc.Arbitrary<number> {
  const plain = fc.double({ min, max: Math.min(max, Math.max(min, 1)), noNaN: true });
  const decades = fc.double({ min: -3, max: 3, noNaN: true }).map((power) => 10 ** power);
  return fc
    .oneof(
      { arbitrary: plain, weight: 3 },
      { arbitrary: decades, weight: 3 },
      { arbitrary: fc.constantFrom(min, max), weight: 1 },
    )
    .map((value) => Number(Math.min(max, Math.max(min, value)).toPrecision(6)));
}

/** What a quantity of each kind usually is, inside: most cases lie within three decades of it, a few at the limits. */
const USUAL: Readonly<Record<Dimension, number>> = {
  time: 60,
  length: 500,
  path: 1,
  force: 5,
  frequency: 1,
  angle: 20,
  pressure: 10,
  mass: 100,
  rate: 0.1,
  wear: 10,
};

function quantityWithin(dimension: Dimension, min: number, max: number): fc.Arbitrary<string> {
  const units = fc.constantFrom(...Object.entries(DIMENSIONS[dimension].written));
  const near = fc.double({ min: -2, max: 2, noNaN: true }).map((power) => USUAL[dimension] * 10 ** power);
  const size = fc.oneof({ arbitrary: near, weight: 8 }, { arbitrary: fc.constantFrom(min, max), weight: 1 });
  return fc.tuple(size, units).map(([value, [unit, one]]) => {
    const inside = Math.min(max, Math.max(min, value));
    return `${String(Number((inside / one).toPrecision(12)))} ${unit}`;
  });
}

const TEXT = fc.oneof(fc.string({ maxLength: 30 }), fc.string({ unit: 'grapheme', maxLength: 20 }));

/** Words of a choice, true or false, or a text. */
function words(schema: Schema): fc.Arbitrary<unknown> {
  let inner: Schema = schema;
  while (inner instanceof z.ZodOptional || inner instanceof z.ZodPrefault) inner = inner.def.innerType;
  if (inner instanceof z.ZodEnum) return fc.constantFrom(...inner.options);
  if (inner instanceof z.ZodBoolean) return fc.boolean();
  if (inner instanceof z.ZodNumber) return fc.constantFrom(0, 0.01, 1);
  return TEXT;
}
