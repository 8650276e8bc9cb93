import { amountOf, shortestLife } from './exposure.js';
import { readMoney } from './money.js';
import { DIMENSIONS, formatQuantity, inside, readQuantity, splitQuantity } from './quantity.js';
import type { Leaf, LeafNature } from './schema/leaf.js';

/** A single value as a person writes it: a number, or a text with its unit. */
export type Written = number | string;

/** What may be put in a value's place: one as a person writes it, a flag, or null, which takes it away. */
export type Setting = Written | boolean | null;

/** Two ends between which an assumed value may lie, each ready to be put in its place. */
export interface WrittenRange {
  readonly low: Written;
  readonly high: Written;
  /** `5 min to 20 min` */
  readonly text: string;
}

export function rangeOf(low: Written, high: Written): WrittenRange {
  return { low, high, text: `${low} to ${high}` };
}

/** The number inside a written value, in one unit for all values of the leaf; null where it is none. */
export function numberIn(nature: LeafNature, written: unknown): number | null {
  if (typeof written === 'number') return nature.form === 'number' || nature.form === 'exposure' ? written : null;
  if (typeof written !== 'string') return null;
  if (nature.form === 'quantity') return valueOf(readQuantity(nature.dimension, written));
  if (nature.form === 'money') {
    const money = readMoney(written);
    return money.ok ? money.value.amount : null;
  }
  return nature.form === 'exposure'
    ? (valueOf(readQuantity('path', written)) ?? valueOf(readQuantity('time', written)) ?? bareCount(written))
    : null;
}

function valueOf(reading: ReturnType<typeof readQuantity>): number | null {
  return reading.ok ? reading.value : null;
}

/** `200 images` */
function bareCount(text: string): number | null {
  return /[a-z]{5}/u.test(text) ? (splitQuantity(text)?.number ?? null) : null;
}

/** The range of a leaf around the value that the scenario has, within what the schema allows; null where it has none. */
export function schemaRange(leaf: Leaf & LeafNature, written: Written): WrittenRange | null {
  const value = numberIn(leaf, written);
  if (value === null || leaf.range === undefined || !('min' in leaf)) return null;
  if ('times' in leaf.range) {
    if (value === 0) return null;
    const [down, up] = leaf.range.times;
    return distinct(end(leaf, written, value, down), end(leaf, written, value, up));
  }
  const [low, high] = leaf.range.between;
  return distinct(
    low < value ? end(leaf, written, low, 1) : written,
    high > value ? end(leaf, written, high, 1) : written,
  );
}

/** What a value that has no range of its own is multiplied with, down and up: ±50 % on a logarithmic scale. */
const FACTOR = 1.5;

/** A range about a value that has none; null where it has no size. */
export function rangeAround(leaf: Leaf & LeafNature, written: Written): WrittenRange | null {
  const here = numberIn(leaf, written);
  if (here === null || here === 0) return null;
  const [low, high] = [movedTo(leaf, written, here / FACTOR), movedTo(leaf, written, here * FACTOR)];
  return low === null || high === null ? null : distinct(low, high);
}

function distinct(low: Written, high: Written): WrittenRange | null {
  return low === high ? null : rangeOf(low, high);
}

type Bounded = Extract<LeafNature, { readonly min: number }>;

/** `value` times `by`, clipped to the leaf's limits, written like `written` where that is what is multiplied. */
function end(leaf: Bounded, written: Written, value: number, by: number): Written {
  const wanted = value * by;
  const clipped = Math.min(leaf.max, Math.max(leastOf(leaf, written), wanted));
  if (typeof written === 'number') return round(clipped);
  const parts = splitQuantity(written);
  if (parts !== null && clipped === wanted && numberIn(leaf, written) === value)
    return `${round(parts.number * by)} ${parts.unit}`.trim();
  if (leaf.form !== 'quantity') return written;
  const { unit } = DIMENSIONS[leaf.dimension];
  return parts?.unit === unit ? `${round(clipped)} ${unit}` : formatQuantity(leaf.dimension, clipped);
}

function leastOf(leaf: Bounded, written: Written): number {
  return leaf.form === 'exposure' ? shortestLife(written) : leaf.min;
}

/** A value put elsewhere, and whether it had to be brought back to what the schema allows. */
export interface Moved<Value> {
  readonly value: Value;
  readonly isClipped: boolean;
}

/**
 * `wanted`, in the leaf's one unit, written as the value of the scenario is, to so many digits; null where that is no
 * number, or an amount of nothing.
 */
export function movedTo(leaf: Leaf & LeafNature, written: Written, wanted: number, digits = DIGITS): Written | null {
  const moved = moverOf(leaf, written, digits)?.(wanted) ?? null;
  if (moved === null || typeof written === 'number') return moved?.number ?? null;
  return moved.isHere ? written : `${moved.number} ${moved.unit}`.trim();
}

/** The same as settings have it, in the unit used inside, without a text between; for one value after the other. */
export function moverInside(leaf: Leaf & LeafNature, written: Written): (wanted: number) => Moved<number> {
  const move = moverOf(leaf, written, DIGITS);
  return (wanted) => {
    const moved = move?.(wanted) ?? null;
    if (moved === null) throw new Error(`${written} is no number that can be moved`);
    const { number, unit, isClipped } = moved;
    if (leaf.form === 'exposure') return { value: amountOf(number, unit), isClipped };
    return { value: (leaf.form === 'quantity' ? inside(leaf.dimension, number, unit) : null) ?? number, isClipped };
  };
}

/** The number of the value's own unit that comes to `wanted`, or as near as the schema allows. */
function moverOf(leaf: Leaf & LeafNature, written: Written, digits: number) {
  const here = numberIn(leaf, written);
  const parts = typeof written === 'number' ? { number: written, unit: '' } : splitQuantity(written);
  if (here === null || parts === null || !('min' in leaf)) return null;
  const { unit } = parts;
  const [least, most] = [leastOf(leaf, written), leaf.max];
  return (wanted: number) => {
    const reached = Math.min(most, Math.max(least, wanted));
    const isClipped = reached !== wanted;
    if (reached === here) return { number: parts.number, unit, isHere: true, isClipped };
    if (typeof written !== 'number' && !(here > 0)) return null;
    const number = typeof written === 'number' ? reached : parts.number * (reached / here);
    return { number: round(number, digits), unit, isHere: false, isClipped };
  };
}

/** Digits that undo the noise of rounding, and keep all that anybody writes. */
const DIGITS = 12;

function round(value: number, digits = DIGITS): number {
  return Number(value.toPrecision(digits));
}
