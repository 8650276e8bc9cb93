import * as z from 'zod';
import { allocationText, exposureText, useLimitText } from '../exposure.js';
import { hoursText, momentText } from '../hours.js';
import { moneyText } from '../money.js';
import { notText, show } from '../show.js';
import { type Bounds, type Dimension, LARGEST, quantityIn, splitQuantity, tidy } from '../quantity.js';

/**
 * How far a value that nobody has measured may reasonably lie from what the scenario says.
 * `times` multiplies the value; `between` is a fixed interval in the unit used inside.
 */
export type Range = { readonly times: readonly [number, number] } | { readonly between: readonly [number, number] };

/** What every number of a scenario carries beside itself: see `registerOf`. */
export interface Leaf {
  /** One sentence for the editor's tooltip and the table of assumptions. */
  readonly description: string;
  /** Where the default comes from, or "usual practice" where no publication was found. */
  readonly source?: string;
  readonly range?: Range;
}

/** What kind of value a leaf is, and within which limits (in the unit used inside) it may lie. */
export type LeafNature =
  | {
      readonly form: 'number' | 'money' | 'exposure';
      readonly min: number;
      readonly max: number;
      readonly isWhole?: boolean;
    }
  | { readonly form: 'quantity'; readonly dimension: Dimension; readonly min: number; readonly max: number }
  /** Hours, moments, limits of use: chosen, never assumed. */
  | { readonly form: 'choice' | 'flag' };

/** What the schema says of each value of a scenario, beside its type. */
export const leaves = z.registry<Leaf & LeafNature>();

/** What the schema says of a group of values that may be written short. */
export interface Group {
  /** Describes the whole; its leaves' descriptions follow it. */
  readonly description?: string;
  /** Source of the group's default. */
  readonly source?: string;
  /** A plain value stands for a map with this one key. */
  readonly shorthand: string;
  /** Entries that are filled in where a map has none of `unless`. */
  readonly completion?: { readonly entries: Readonly<Record<string, string>>; readonly unless: readonly string[] };
}
export const groups = z.registry<Group>();

/** What is wrong with values that do not go together, and at which of them it is told. */
export interface Wrong {
  readonly key: string;
  readonly message: string;
}
/** A check of values that stand together, made again where one of them is patched; null where they go together. */
export interface Check {
  check(value: unknown): Wrong | null;
}
export const checks = z.registry<Check>();

/** Has a schema refuse values that do not go together; `check` gives null where they do. */
export function checked<Schema extends z.ZodType>(
  schema: Schema,
  check: (value: z.output<Schema>) => Wrong | null,
): Schema {
  const whole = schema.superRefine((value, context) => {
    const wrong = check(value);
    if (wrong !== null) context.addIssue({ code: 'custom', path: [wrong.key], message: wrong.message });
  });
  const plain: z.ZodType = whole;
  // What is patched into settings was read by this schema, so that the check meets its own type.
  const again: Check = { check };
  checks.add(plain, again);
  return whole;
}

export const USUAL = 'usual practice, no source';

/** The value is a factor or a time of which only the order of magnitude is known. */
export const WITHIN_TWO: Range = { times: [0.5, 2] };
export const WITHIN_FIVE: Range = { times: [0.2, 5] };

/** A quantity with its unit, such as `10 min`; gives a plain number in the unit used inside. */
export function quantity(dimension: Dimension, leaf: Leaf, bounds: Bounds = {}) {
  return leafOf(quantityIn(dimension, bounds), leaf, {
    form: 'quantity',
    dimension,
    min: bounds.min ?? 0,
    max: bounds.max ?? LARGEST,
  });
}

/** An amount of money, `30 EUR`; gives a plain number. */
export function money(leaf: Leaf) {
  return leafOf(moneyText(), leaf, { form: 'money', min: 0, max: LARGEST });
}

/** An amount of exposure, `200` images, `80 mm` or `30 h`; the hazard gives it its unit. */
export function exposureAmount(leaf: Leaf) {
  return leafOf(exposureText(), leaf, { form: 'exposure', min: 0, max: LARGEST });
}

/** Weekly hours; gives half-open spans in microseconds from Monday 00:00. */
export function weeklyHours(leaf: Leaf) {
  return leafOf(hoursText(), leaf, { form: 'choice' });
}

/** A moment of the week; gives microseconds from Monday 00:00. */
export function weekMoment(leaf: Leaf) {
  return leafOf(momentText(), leaf, { form: 'choice' });
}

/** Granted time, `5 sessions` or `40 h`. */
export function allocation(leaf: Leaf) {
  return leafOf(allocationText(), leaf, { form: 'choice' });
}

/** Use after which a tip goes, `20 images`, `5 mm` or `3 h`. */
export function useLimit(leaf: Leaf) {
  return leafOf(useLimitText(), leaf, { form: 'choice' });
}

interface Limits {
  readonly min?: number;
  readonly max?: number;
}

/** A share or probability, 0 to 1 unless narrowed. */
export function fraction(leaf: Leaf, limits: Limits = {}) {
  const { min, max } = { min: 0, max: 1, ...limits };
  const error: z.core.$ZodErrorMap = ({ code, input }) => {
    if (code !== 'invalid_type') return undefined;
    return notText(input, '', `a number between ${min} and ${max}, such as \`${shareMeant(input) ?? 0.8}\`, is wanted`);
  };
  return plainNumber(z.number({ error }), leaf, { min, max });
}

/** What a share written in percent would be as a number; null where it is none. */
function shareMeant(input: unknown): number | null {
  const parts = typeof input === 'string' ? splitQuantity(input) : null;
  return parts?.unit === '%' && parts.number >= 0 && parts.number <= 100 ? tidy(parts.number / 100) : null;
}

/** A whole number. */
export function count(leaf: Leaf, limits: Limits = {}) {
  return plainNumber(z.number().int(), leaf, { min: 0, max: 1_000_000, ...limits, isWhole: true });
}

/** A number without unit, 1 to 100 unless said otherwise. */
export function factor(leaf: Leaf, limits: Limits = {}) {
  return plainNumber(z.number(), leaf, { min: 1, max: 100, ...limits });
}

function plainNumber(schema: z.ZodNumber, leaf: Leaf, nature: Required<Limits> & { readonly isWhole?: boolean }) {
  return leafOf(schema.min(nature.min).max(nature.max), leaf, { form: 'number', ...nature });
}

export function flag(leaf: Leaf) {
  return leafOf(z.boolean(), leaf, { form: 'flag' });
}

/** Describes a value for the editor's tooltip, and enters it among the leaves that the table of assumptions shows. */
function leafOf<S extends z.ZodType>(schema: S, leaf: Leaf, nature: LeafNature): S {
  const described = schema.meta({ description: tooltip(leaf) });
  const plain: z.ZodType = described;
  leaves.add(plain, { ...leaf, ...nature });
  return described;
}

/** A description with its source, as an editor shows it. */
export function tooltip(leaf: Pick<Leaf, 'description' | 'source'>): string {
  return leaf.source === undefined ? leaf.description : `${leaf.description}. Default: ${leaf.source}`;
}

const NAME = /^[\p{L}\p{N}][\p{L}\p{N} _()+-]{0,59}$/u;

/** Whether a text may be such a name. */
export function isName(text: string): boolean {
  return NAME.test(text);
}

/** A name that can stand in a path, a table and a file: no dots, no control characters. */
export const name = z.string().regex(NAME, {
  error: (issue) =>
    `read ${show(issue.input)}; a name of at most 60 letters, digits, spaces and -_+() that begins with a letter or digit is wanted`,
});

export const text = z.string().max(2000);

/** A list as a tuple with a first member, as unions want it. */
export function oneOrMore<T>([first, ...rest]: readonly T[]): [T, ...T[]] {
  return [first, ...rest];
}
