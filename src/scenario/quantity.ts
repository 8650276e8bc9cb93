import Qty from 'js-quantities';
import * as z from 'zod';
import { notText, show } from './show.js';

/**
 * What a quantity measures: the unit that the code uses inside, an example of what a person would write, and the units
 * in which values are written back, from small to large.
 *
 * Inside: seconds, nanometres, nanonewtons, millimetres of sliding path, hertz, degrees, gigapascals, nanograms, nanometres a
 * second, and cubic nanometres worn off per nanonewton of load and millimetre of path.
 */
export const DIMENSIONS = {
  time: { name: 'a time', unit: 's', example: '10 min', written: { ms: 1e-3, s: 1, min: 60, h: 3600, d: 86_400 } },
  length: { name: 'a length', unit: 'nm', example: '25 um', written: { pm: 1e-3, nm: 1, um: 1e3, mm: 1e6, m: 1e9 } },
  path: { name: 'a path', unit: 'mm', example: '0.8 mm', written: { nm: 1e-6, um: 1e-3, mm: 1, m: 1e3, km: 1e6 } },
  force: {
    name: 'a force',
    unit: 'nN',
    example: '20 nN',
    written: { fN: 1e-6, pN: 1e-3, nN: 1, uN: 1e3, mN: 1e6, N: 1e9 },
  },
  frequency: { name: 'a frequency', unit: 'Hz', example: '1.5 Hz', written: { mHz: 1e-3, Hz: 1, kHz: 1e3, MHz: 1e6 } },
  angle: { name: 'an angle', unit: 'deg', example: '20 deg', written: { deg: 1 } },
  pressure: { name: 'a hardness', unit: 'GPa', example: '12 GPa', written: { kPa: 1e-6, MPa: 1e-3, GPa: 1 } },
  mass: { name: 'a mass', unit: 'ng', example: '4.7 ng', written: { fg: 1e-6, pg: 1e-3, ng: 1, ug: 1e3, mg: 1e6 } },
  rate: {
    name: 'a drift rate',
    unit: 'nm/s',
    example: '0.05 nm/s',
    written: { 'nm/s': 1, 'um/s': 1e3, 'mm/s': 1e6 },
  },
  wear: { name: 'a wear coefficient', unit: 'nm3/nN*mm', example: '83 nm3/(nN mm)', written: { 'nm3/(nN mm)': 1 } },
} as const satisfies Record<string, DimensionEntry>;

interface DimensionEntry {
  readonly name: string;
  readonly unit: string;
  readonly example: string;
  readonly written: Readonly<Record<string, number>>;
}

export type Dimension = keyof typeof DIMENSIONS;

export interface Bounds {
  /** Least value allowed, in the unit used inside; 0 unless given. */
  readonly min?: number;
  /** Greatest value allowed, in the unit used inside. */
  readonly max?: number;
  /** True where zero itself makes no sense. */
  readonly positive?: boolean;
}

/** A value read, or one sentence that says what was read and what is wanted. */
export type Reading<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly message: string };

/** Beyond this a number is taken for a slip of the pen, whatever it measures. */
export const LARGEST = 1e15;

const NUMBER = /^([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*)$/su;
const UNIT = /^(?:[A-Za-z]|1\/)[A-Za-z0-9^*/ -]*$/u;

/** The number and the unit of a text, without knowledge of units; null where it does not begin with a number. */
export function splitQuantity(text: string): { readonly number: number; readonly unit: string } | null {
  const match = NUMBER.exec(text.trim());
  if (match === null) return null;
  const [, number = '', unit = ''] = match;
  return { number: Number(number), unit: unit.trim() };
}

/** Fifteen significant digits, which undoes the last-bit noise of a unit conversion: 0.1 h is 360 s exactly. */
export function tidy(value: number): number {
  return Number(value.toPrecision(15));
}

/** Reads a quantity into the unit used inside. */
export function readQuantity(dimension: Dimension, text: string): Reading<number> {
  const refuse = (what: string): Reading<number> => ({
    ok: false,
    message: `read ${show(text)}${what}; ${wanted(dimension)}`,
  });
  const parts = text.length > 100 ? null : splitQuantity(text);
  if (parts === null) return refuse(', which does not begin with a number');
  if (parts.unit === '') return refuse(', which has no unit');
  if (/^,\d/u.test(parts.unit)) return refuse(', where the decimal sign must be a point');
  const factor = factorOf(dimension, parts.unit);
  if (factor === 'unknown') return refuse(`, whose unit \`${parts.unit}\` is not known`);
  if (factor === 'other')
    return refuse(`, whose unit \`${parts.unit}\` does not measure ${DIMENSIONS[dimension].name}`);
  const value = tidy(parts.number * factor);
  return Math.abs(value) <= LARGEST
    ? { ok: true, value }
    : refuse(`, which is too large to be meant (over ${LARGEST} in ${DIMENSIONS[dimension].unit})`);
}

type Factor = number | 'unknown' | 'other';
/** Factors found so far: the unit library takes its time, and the same few units come again and again. */
const factors = new Map<string, Factor>();
const MOST_FACTORS = 1000;

/** So many of a unit in the unit used inside; null where the unit does not measure this. */
export function inside(dimension: Dimension, number: number, unit: string): number | null {
  const factor = unit === '' ? 'other' : factorOf(dimension, unit);
  return typeof factor === 'number' ? tidy(number * factor) : null;
}

/** Units used inside in one of this unit, or what is wrong with it. */
function factorOf(dimension: Dimension, written: string): Factor {
  const key = `${dimension} ${written}`;
  const known = factors.get(key);
  if (known !== undefined) return known;
  const found = findFactor(dimension, written);
  if (factors.size < MOST_FACTORS) factors.set(key, found);
  return found;
}

function findFactor(dimension: Dimension, written: string): Factor {
  const unit = plainUnit(written);
  const one = UNIT.test(unit) ? Qty.parse(unit) : null;
  if (one === null) return 'unknown';
  const inside = DIMENSIONS[dimension].unit;
  return one.isCompatible(inside) ? one.to(inside).scalar : 'other';
}

function wanted(dimension: Dimension): string {
  const { name, example } = DIMENSIONS[dimension];
  return `${name} such as \`${example}\` is wanted`;
}

/** Spellings that people use, in the one that the unit library reads. */
function plainUnit(unit: string): string {
  return unit
    .replace(/[\u00B5\u03BC]/gu, 'u')
    .replace(/\u00B0/gu, 'deg')
    .replace(/[\u00C5\u212B]/gu, 'angstrom')
    .replace(/\u00B2/gu, '2')
    .replace(/\u00B3/gu, '3')
    .replace(/[\u00B7\u22C5]/gu, '*')
    .replace(/\/\s*\(([^()]*)\)$/u, '/$1');
}

/** A schema for a quantity: text with a unit in, a plain number in the unit used inside out. */
export function quantityIn(dimension: Dimension, bounds: Bounds) {
  return z
    .string({ error: (issue) => notText(issue.input, 'which has no unit', wanted(dimension)) })
    .transform((text, context): number => {
      const reading = readQuantity(dimension, text);
      const message = reading.ok ? outside(dimension, reading.value, bounds, text) : reading.message;
      if (message !== null) context.addIssue({ code: 'custom', message });
      return reading.ok ? reading.value : z.NEVER;
    });
}

function outside(dimension: Dimension, value: number, bounds: Bounds, text: string): string | null {
  const least = bounds.min ?? 0;
  const say = (limit: string) => `read ${show(text)}; ${limit} is wanted`;
  if (bounds.positive === true && value <= 0) return say(`${DIMENSIONS[dimension].name} greater than zero`);
  if (value < least) return say(`at least ${formatQuantity(dimension, least)}`);
  if (bounds.max !== undefined && value > bounds.max) return say(`at most ${formatQuantity(dimension, bounds.max)}`);
  return null;
}

/** A value as a person writes it, in the largest unit that leaves a number of at least 1. */
export function formatQuantity(dimension: Dimension, value: number, digits = 6): string {
  const units = Object.entries(DIMENSIONS[dimension].written);
  const inside = units.find(([, size]) => size === 1);
  const fitting = units.filter(([, size]) => Math.abs(value) >= size);
  const [unit, size] = (value === 0 ? inside : (fitting.at(-1) ?? units.at(0))) ?? [DIMENSIONS[dimension].unit, 1];
  return `${Number((value / size).toPrecision(digits))} ${unit}`;
}

/** A value to three significant digits, for sentences. */
export function aboutQuantity(dimension: Dimension, value: number): string {
  return formatQuantity(dimension, value, 3);
}
