import * as z from 'zod';
import { valueAt } from '../../scenario/describe.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { writtenPath } from '../../scenario/paths.js';
import type { Path } from '../../scenario/places.js';
import { splitQuantity, tidy } from '../../scenario/quantity.js';
import { numberIn, type WrittenRange } from '../../scenario/ranges.js';
import { type RegisterValue, writtenOf } from '../../scenario/register.js';
import { sharedSchema } from '../../scenario/schema/scenario.js';
import { entriesOf, type FoundLeaf, type Schema } from '../../scenario/schema-walk.js';

/** A value of the scenario as the page asks for it. */
export interface Field {
  /** As `sources`, `ranges` and the assumptions take it. */
  readonly path: string;
  readonly label: string;
  /** As a person writes it, with its unit. */
  readonly value: string;
  /** Where there is a plausible range, or a number is chosen: the ends and the value, in the unit in which it is written. */
  readonly slider: Slider | null;
  /** The words that it may be; null where it is anything else. */
  readonly choices: readonly string[] | null;
  readonly standing: RegisterValue['standing'];
  /** Where the value comes from, or what is said of one that nobody has measured. */
  readonly source: string | null;
  readonly isDefault: boolean;
}

export interface Slider {
  readonly low: number;
  readonly high: number;
  readonly at: number;
  readonly unit: string;
  readonly isWhole: boolean;
  /** Whether its ends lie so far apart that one goes by equal factors. */
  readonly isByFactors: boolean;
  /** Whether the ends are those of a plausible range; else half and double of what is chosen. */
  readonly isPlausible: boolean;
  /** As a person writes it: `5 min to 20 min`. */
  readonly text: string;
}

/** Values that are asked for together. */
export interface FieldGroup {
  readonly title: string;
  readonly fields: readonly Field[];
}

export interface Form {
  readonly title: string;
  readonly about: string | null;
  readonly images: number;
  readonly groups: readonly FieldGroup[];
}

/** The groups by the first keys of a path, in the order of the form. */
const GROUPS: readonly (readonly [start: string, title: string])[] = [
  ['plan', 'Plan: regions and images'],
  ['tips', 'Tips: sharpness, wear and failures'],
  ['workflows.swap', 'Swap and relocate'],
  ['workflows.hop', 'Array-hop'],
  ['noticing', 'How a spoiled tip is noticed'],
  ['rules', 'When a tip is replaced'],
  ['stock', 'Stock and deliveries'],
  ['operators', 'Operators, hours and bookings'],
  ['instruments', 'Operators, hours and bookings'],
  ['bookings', 'Operators, hours and bookings'],
  ['start', 'Operators, hours and bookings'],
  ['costs', 'Prices'],
  ['smallestDifference', 'What matters'],
  ['strategies', 'What single strategies change'],
];

/** Every value of a scenario, in groups; made from the declarations that give the schema, the checks and the assumptions. */
export function formOf(loaded: LoadedScenario): Form {
  const fields = [
    ...loaded.register.map((value) => fieldOf(loaded, value)),
    ...wordsIn(sharedSchema, { ...loaded.base }, [], loaded),
  ];
  const titles = [...new Set(GROUPS.map(([, title]) => title)), OTHER];
  return {
    title: loaded.base.title,
    about: loaded.base.about ?? null,
    images: loaded.strategies[0].settings.plan.passes.length,
    groups: titles
      .map((title) => ({ title, fields: fields.filter(({ path }) => titleOf(path) === title) }))
      .filter((group) => group.fields.length > 0),
  };
}

const OTHER = 'Other values';

function titleOf(path: string): string {
  return GROUPS.find(([start]) => path === start || path.startsWith(`${start}.`))?.[1] ?? OTHER;
}

function fieldOf(loaded: LoadedScenario, entry: RegisterValue): Field {
  const { path, value, description, range, standing, source, note, isDefault } = entry;
  const found = valueAt(loaded, path);
  return {
    ...{ path, value, label: description, standing, isDefault },
    slider: found === null ? null : range === null ? aroundChoice(found, entry) : sliderOf(found, entry, range),
    choices: found?.leaf.form === 'flag' ? ['true', 'false'] : null,
    source: source ?? note,
  };
}

/** Null where an end is written in a way that a slider cannot go over. */
function sliderOf({ leaf }: FoundLeaf, entry: RegisterValue, { low, high, text }: WrittenRange): Slider | null {
  const written = writtenOf(entry);
  const [from, at, to] = [low, written, high].map((each) => numberIn(leaf, each));
  const parts = typeof written === 'string' ? splitQuantity(written) : { number: written, unit: '' };
  if (from === null || at === null || to === null || parts === null || !(from < to)) return null;
  const isWhole = isWholeIn(leaf);
  // A value of nothing says nothing of its unit.
  const times = at === 0 ? (parts.unit === '' ? 1 : null) : parts.number / at;
  if (times === null) return null;
  const isByFactors = from > 0 && to / from > 3;
  const ends = { low: tidy(from * times), high: tidy(to * times) };
  return { ...ends, at: parts.number, unit: parts.unit, isWhole, isByFactors, isPlausible: true, text };
}

function isWholeIn(leaf: FoundLeaf['leaf']): boolean {
  return leaf.form === 'number' && leaf.isWhole === true;
}

/** Units of which there are whole numbers only. */
const COUNTED = /^(?:images?|approach(?:es)?|sessions?)$/u;

/** Half to double of a number that somebody chooses, within what the schema allows; null of any other choice. */
function aroundChoice({ leaf }: FoundLeaf, { value }: RegisterValue): Slider | null {
  const match = /^(\d+(?:\.\d+)?)(?: ([^\s\d]+))?$/u.exec(value);
  const at = Number(match?.[1]);
  if (!(at > 0)) return null;
  const unit = match?.at(2) ?? '';
  const isWhole = isWholeIn(leaf) || COUNTED.test(unit);
  const isBare = leaf.form === 'number';
  const low = Math.max(isWhole ? Math.ceil(at / 2) : at / 2, isBare ? leaf.min : 0);
  const high = Math.min(2 * at, isBare ? leaf.max : Infinity);
  if (!(low < high)) return null;
  const text = `${tidy(low)} to ${tidy(high)} ${unit}`.trim();
  return { low, high, at, unit, isWhole, isByFactors: high / low > 3, isPlausible: false, text };
}

/** Settings that are one of several words, or on or off. */
function wordsIn(schema: Schema, data: unknown, path: Path, loaded: LoadedScenario): readonly Field[] {
  const choices = choicesOf(schema);
  if (choices !== null && path[0] !== 'strategies') {
    const written = writtenPath({ ...loaded.base }, path);
    const label = labelOf(schema) ?? String(path.at(-1));
    return [
      {
        ...{ path: written, value: String(data), label, slider: null, choices, standing: 'choice' },
        ...{ source: null, isDefault: false },
      },
    ];
  }
  if (path[0] === 'strategies' || path[0] === 'cautions') return [];
  return entriesOf(schema, data).flatMap((entry) =>
    entry.data === undefined ? [] : wordsIn(entry.schema, entry.data, [...path, entry.key], loaded),
  );
}

function choicesOf(wrapped: Schema): readonly string[] | null {
  let schema = wrapped;
  while (schema instanceof z.ZodPrefault || schema instanceof z.ZodOptional) schema = schema.def.innerType;
  if (schema instanceof z.ZodBoolean) return ['true', 'false'];
  return schema instanceof z.ZodEnum ? schema.options.map(String) : null;
}

function labelOf(wrapped: Schema): string | null {
  let schema = wrapped;
  for (;;) {
    const said = schema instanceof z.ZodType ? schema.meta()?.description : undefined;
    if (said !== undefined) return said;
    if (!(schema instanceof z.ZodPrefault || schema instanceof z.ZodOptional)) return null;
    schema = schema.def.innerType;
  }
}
