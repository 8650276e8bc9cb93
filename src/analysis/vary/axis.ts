import { ln } from '../../chance/elementary.js';
import { splitQuantity } from '../../scenario/quantity.js';
import type { Setting } from '../../scenario/ranges.js';
import type { Estimate } from '../../statistics/estimate.js';
import { between, written } from './range.js';
import { settingText, type Varied } from './varied.js';

/** A range of numbers as a way from its low end, share 0, to its high end, share 1; equal shares are equal ratios where `isLog`. */
export interface Axis {
  readonly low: number;
  readonly high: number;
  /** As it is written behind the number; empty where there is none. */
  readonly unit: string;
  readonly isLog: boolean;
  readonly isWhole: boolean;
}

/** The axis along which a value is varied; null for a choice, between whose settings lies nothing. */
export function axisOf({ kind, span }: Varied): Axis | null {
  if (kind === 'choice' || span === null) return null;
  const { low, high, unit, isLog } = span;
  return { low, high, unit, isLog, isWhole: kind === 'whole' };
}

/** The number at a share of the way, also between whole numbers. */
export function numberAt({ low, high, isLog }: Axis, share: number): number {
  return between(low, high, share, isLog);
}

/** Places of the axis, given as shares of the way, as numbers. */
export function numbersAt(axis: Axis, at: number, low: number, high: number): Estimate {
  return { value: numberAt(axis, at), low: numberAt(axis, low), high: numberAt(axis, high) };
}

export function shareOf({ low, high, isLog }: Axis, number: number): number {
  return isLog ? ln(number / low) / ln(high / low) : (number - low) / (high - low);
}

/** A setting as a person reads it: of the digits that computing has made, four. */
export function settingLabel(setting: Setting): string {
  return settingText(setting).replace(/^-?\d+\.\d{3,}/u, (number) => String(Number(Number(number).toPrecision(4))));
}

/** The number of a setting, without its unit; null where it is none. */
export function numberOf(setting: Setting): number | null {
  if (typeof setting === 'number') return setting;
  return typeof setting === 'string' ? (splitQuantity(setting)?.number ?? null) : null;
}

/** What is put into the scenario at a share of the way, the nearest whole number where only those make sense, and where that lies. */
export function placeAt(axis: Axis, share: number): { at: number; number: number; setting: Setting } {
  const exact = numberAt(axis, share);
  const number = axis.isWhole ? Math.floor(exact + 0.5) : exact;
  return { at: shareOf(axis, number), number, setting: written(number, axis.unit) };
}

/** A place of the axis with its interval, such as `33.8 images (30.1 to 37.9)`. */
export function placeText({ unit }: Pick<Axis, 'unit'>, { value, low, high }: Estimate): string {
  const digits = digitsFor((high - low) / 2, value);
  const behind = unit === '' ? '' : ` ${unit}`;
  const say = (number: number) => number.toFixed(digits);
  return high > low ? `${say(value)}${behind} (${say(low)} to ${say(high)})` : `${say(value)}${behind}`;
}

/** Decimals that keep two digits of a half-width, or three of a value that is known exactly. */
function digitsFor(halfWidth: number, value: number): number {
  const [size, wanted] = halfWidth > 0 ? [halfWidth, 10] : [Math.abs(value), 100];
  let digits = 0;
  for (let shown = size; shown > 0 && shown < wanted && digits < 9; shown *= 10) digits += 1;
  return digits;
}
