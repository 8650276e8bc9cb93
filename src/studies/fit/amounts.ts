import type { ExposureUnit } from '../../scenario/exposure.js';
import { type Dimension, LARGEST, readQuantity, splitQuantity, tidy, type Reading } from '../../scenario/quantity.js';
import { show } from '../../scenario/show.js';

/**
 * What a column of numbers may hold: use in an exposure unit, a load in nanonewtons, a radius in nanometres, or a pace without unit; and
 * of drift, seconds elapsed, a displacement in nanometres or a rate in nanometres a second, which may be below zero.
 */
export type Measure = ExposureUnit | 'load' | 'pace' | 'radius' | 'elapsed' | 'displacement' | 'rate';

const SIGNED: readonly Measure[] = ['displacement', 'rate'];

/** Words that stand for a count, where others have a unit. */
const COUNTED: Readonly<Partial<Record<Measure, readonly string[]>>> = {
  image: ['', 'image', 'images', 'scan', 'scans', 'frames', '1', '-', '#'],
  approach: ['', 'approach', 'approaches', 'engages', '1', '-', '#'],
  pace: ['', '1', '-', 'x'],
};

const EXAMPLES: Readonly<Record<Measure, string>> = {
  image: 'images',
  distance: 'mm',
  hour: 'h',
  approach: 'approaches',
  load: 'nN',
  radius: 'nm',
  pace: '1',
  elapsed: 'min',
  displacement: 'nm',
  rate: 'nm/s',
};

const DIMENSIONS_OF: Readonly<Partial<Record<Measure, Dimension>>> = {
  distance: 'path',
  hour: 'time',
  radius: 'length',
  elapsed: 'time',
  displacement: 'length',
  rate: 'rate',
};

/** What is above zero is at least this, in the units used inside (a picometre of path, 4 microseconds): distributions of lives divide by it. */
const SMALLEST = 1e-9;

/** How many of what the code uses inside (images, millimetres, hours, approaches, nanonewtons) one of this unit is. */
export function unitFactor(measure: Measure, unit: string): Reading<number> {
  const counted = COUNTED[measure];
  if (counted !== undefined) {
    if (counted.includes(unit.toLowerCase())) return { ok: true, value: 1 };
    return { ok: false, message: `read the unit ${show(unit)}, where ${show(EXAMPLES[measure])} are counted` };
  }
  const dimension = DIMENSIONS_OF[measure] ?? 'force';
  const one = readQuantity(dimension, `1 ${unit}`);
  if (one.ok) return { ok: true, value: measure === 'hour' ? tidy(one.value / 3600) : one.value };
  return {
    ok: false,
    message:
      unit === ''
        ? `has no unit; one such as ${show(EXAMPLES[measure])} is wanted`
        : `read the unit ${show(unit)}; one such as ${show(EXAMPLES[measure])} is wanted`,
  };
}

/** How a table writes its numbers. */
export interface Notation {
  /** `12,5` where others write `12.5`: some number has a comma that can be nothing else, and none is `1,234.5`. */
  readonly decimalCommas: boolean;
  /** Some number is `1.234,5`. */
  readonly groupingDots: boolean;
}

const GROUPING_DOTS = /^[+-]?\d{1,3}(?:\.\d{3})+,\d/u;

export const PLAIN_NOTATION: Notation = { decimalCommas: false, groupingDots: false };

export function notationOf(texts: readonly string[]): Notation {
  const groupingDots = texts.some((text) => GROUPING_DOTS.test(text));
  const evident = groupingDots || texts.some((text) => /^[+-]?(?:\d+,(?:\d{1,2}|\d{4,})|0+,\d+)(?:\s|$)/u.test(text));
  return { decimalCommas: evident && !texts.some((text) => /\d,\d{3}[.,]\d/u.test(text)), groupingDots };
}

/** `12,5` as `12.5`; a blank, an apostrophe or the other sign between groups of three digits goes. Null where that sign may mean either. */
function plainNumber(text: string, { decimalCommas, groupingDots }: Notation): string | null {
  const grouped = text.replace(/(?<=\d)[\u0020\u00A0\u2009\u202F'](?=\d{3}(?!\d))/gu, '');
  if (!decimalCommas && /^[+-]?[1-9]\d{0,2},\d{3}(?!\d|[.,])/u.test(grouped)) return null;
  if (groupingDots && /^[+-]?[1-9]\d{0,2}\.\d{3}(?!\d|[.,])/u.test(grouped)) return null;
  if (GROUPING_DOTS.test(grouped)) return grouped.replaceAll('.', '').replace(',', '.');
  if (/^[+-]?\d{1,3}(?:,\d{3})+\.\d/u.test(grouped) || /^[+-]?\d{1,3}(?:,\d{3}){2,}(?!\d)/u.test(grouped))
    return grouped.replaceAll(',', '');
  return grouped.replace(/^([+-]?\d*),(\d)/u, '$1.$2');
}

/**
 * Reads a cell: a number in the unit of its column (`factor` of what is used inside), or with a unit of its own.
 * @param notation of the table
 */
export function readAmount(measure: Measure, text: string, factor: number, notation: Notation): Reading<number> {
  const plain = plainNumber(text, notation);
  if (plain === null) {
    const [whole, part] = [
      text.replace(/[.,]/u, ''),
      notation.decimalCommas ? text.replace('.', ',') : text.replace(',', '.'),
    ];
    return {
      ok: false,
      message: `read ${show(text)}, which may be ${show(whole)} or ${show(part)}; write one of them`,
    };
  }
  const parts = text.length > 100 ? null : splitQuantity(plain);
  if (parts === null) return { ok: false, message: `read ${show(text)}; a number is wanted` };
  const own = parts.unit === '' ? { ok: true as const, value: factor } : unitFactor(measure, parts.unit);
  if (!own.ok) return { ok: false, message: `read ${show(text)}: ${own.message.replace(/^read /u, '')}` };
  const value = tidy(parts.number * own.value);
  const isSigned = SIGNED.includes(measure);
  if (value < 0 && !isSigned)
    return {
      ok: false,
      message: `read ${show(text)}; a number below zero is ${measure === 'elapsed' ? 'no time after a disturbance' : 'no use of a tip'}`,
    };
  if (value > 0 && value < SMALLEST && !isSigned)
    return {
      ok: false,
      message: `read ${show(text)}, which is too small to be fitted: at least ${SMALLEST} is wanted`,
    };
  if (!(Math.abs(value) <= LARGEST))
    return { ok: false, message: `read ${show(text)}, which is too large to be fitted: at most ${LARGEST} is wanted` };
  return { ok: true, value };
}
