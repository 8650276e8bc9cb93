/** Numbers and times as people write them; the interval says how many digits an estimate deserves. */

import type { Estimate } from '../study/results.js';

/** A unit for numbers that are shown together: what to divide by, and what stands behind the number. */
export interface Scale {
  readonly divisor: number;
  readonly unit: string;
}

export const SHARE: Scale = { divisor: 0.01, unit: '%' };
export const PLAIN: Scale = { divisor: 1, unit: '' };
const SECOND: Scale = { divisor: 1, unit: 's' };
const MINUTE: Scale = { divisor: 60, unit: 'min' };
const HOUR: Scale = { divisor: 3600, unit: 'h' };
const DAY: Scale = { divisor: 86_400, unit: 'd' };

/** Narrow no-break space between groups of digits, no-break space before a unit. */
const GROUP = '\u202f';
const GAP = '\u00a0';

/** Working time is said in hours, however long. */
export function workScale(seconds: number): Scale {
  if (seconds < 180) return SECOND;
  return seconds < 3 * 3600 ? MINUTE : HOUR;
}

/** Time on the wall is said in days from the fourth day on. */
export function calendarScale(seconds: number): Scale {
  return seconds >= 4 * 86_400 ? DAY : workScale(seconds);
}

export function unitName(scale: Scale): string {
  const names: Readonly<Partial<Record<string, string>>> = { s: 'seconds', min: 'minutes', h: 'hours', d: 'days' };
  return names[scale.unit] ?? scale.unit;
}

export function fixed(value: number, decimals: number): string {
  const text = Math.abs(value).toFixed(decimals);
  const point = decimals === 0 ? text.length : text.indexOf('.');
  const whole = text.slice(0, point);
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, GROUP) : whole;
  const sign = value < 0 && Number(text) !== 0 ? '\u2212' : '';
  return `${sign}${grouped}${text.slice(point)}`;
}

/** What would need more reads as 0. */
const MOST_DECIMALS = 12;

/** Decimals that an interval of this half-width leaves meaningful: one digit of it, two where that digit is 1. */
export function decimalsFor(halfWidth: number, value: number): number {
  if (isNothing(halfWidth, value)) {
    const decimals = Number.isInteger(Number(value.toPrecision(3))) ? 0 : Math.max(0, 2 - magnitude(value));
    return decimals > MOST_DECIMALS ? 0 : decimals;
  }
  return Math.min(4, Math.max(0, -Math.floor(Math.log10(halfWidth / 2) + 1e-9)));
}

/** Half-widths that only rounding has made: nothing varied. */
function isNothing(halfWidth: number, value: number): boolean {
  return !(halfWidth > 1e-9 * Math.abs(value));
}

function magnitude(value: number): number {
  return value === 0 ? 0 : Math.floor(Math.log10(Math.abs(value)));
}

export function withUnit(text: string, scale: Scale): string {
  if (scale.unit === '') return text;
  return scale.unit === '%' ? `${text}${GAP}%` : `${text}${GAP}${scale.unit}`;
}

/** A number alone: three significant digits, none behind the point where there are that many before it. */
export function numberText(value: number, scale: Scale = PLAIN): string {
  const scaled = value / scale.divisor;
  const decimals = Number.isInteger(Number(scaled.toFixed(9))) ? 0 : Math.min(4, Math.max(0, 2 - magnitude(scaled)));
  return withUnit(fixed(scaled, decimals), scale);
}

/** `60 images of 20 regions`; of several samples `180 images of 60 regions on 3 samples`. */
export function imagesText(images: number, regions: number, samples: number): string {
  const text = `${numberText(images)} images of ${numberText(regions)} regions`;
  return samples === 1 ? text : `${text} on ${numberText(samples)} samples`;
}

/** A difference alone, with its sign and two significant digits. */
export function signedText(value: number, scale: Scale): string {
  const scaled = value / scale.divisor;
  const text = fixed(scaled, Math.min(4, Math.max(0, 1 - magnitude(scaled))));
  return withUnit(scaled > 0 ? `+${text}` : text, scale);
}

export interface EstimateText {
  readonly value: string;
  /** `40.9 to 41.6`, without unit; empty where the interval has no width. */
  readonly interval: string;
}

export function estimateText(estimate: Estimate, scale: Scale, signed = false): EstimateText {
  const value = estimate.value / scale.divisor;
  const low = estimate.low / scale.divisor;
  const high = estimate.high / scale.divisor;
  let decimals = decimalsFor((high - low) / 2, value);
  // An end of a difference that leaves zero out must not read as zero.
  const readsZero = (end: number): boolean => Number(end.toFixed(decimals)) === 0;
  while (signed && low * high > 0 && decimals < 4 && (readsZero(low) || readsZero(high))) decimals += 1;
  const say = (number: number): string => {
    const text = fixed(number, decimals);
    return signed && number > 0 && /[1-9]/.test(text) ? `+${text}` : text;
  };
  return {
    value: withUnit(say(value), scale),
    interval: !isNothing((high - low) / 2, value) ? `${say(low)} to ${say(high)}` : '',
  };
}

/** Value and interval in one line. */
export function estimateLine(estimate: Estimate, scale: Scale, signed = false): string {
  const text = estimateText(estimate, scale, signed);
  return text.interval === '' ? text.value : `${text.value} (${text.interval})`;
}

/** Value and half-width of a symmetric interval, where there is little room: `40.9 ±0.4 h`. */
export function halfWidthLine(estimate: Estimate, scale: Scale): string {
  const value = estimate.value / scale.divisor;
  const halfWidth = (estimate.high - estimate.low) / 2 / scale.divisor;
  const decimals = decimalsFor(halfWidth, value);
  if (isNothing(halfWidth, value)) return withUnit(fixed(value, decimals), scale);
  return withUnit(`${fixed(value, decimals)} ±${fixed(halfWidth, decimals)}`, scale);
}

/** A length of time alone, in the unit in which it reads best: `45 s`, `12 min`, `3 h 20 min`, `2 d 4 h`. */
export function durationText(seconds: number): string {
  const whole = Math.round(seconds);
  if (whole < 60) return withUnit(numberText(seconds), SECOND);
  const minutes = Math.round(whole / 60);
  if (minutes < 60) return `${String(minutes)}${GAP}min`;
  const pairs: readonly [number, number, string, string] =
    minutes < 2880
      ? [Math.floor(minutes / 60), minutes % 60, 'h', 'min']
      : [Math.floor(Math.round(minutes / 60) / 24), Math.round(minutes / 60) % 24, 'd', 'h'];
  const [big, small, bigUnit, smallUnit] = pairs;
  return small === 0
    ? `${String(big)}${GAP}${bigUnit}`
    : `${String(big)}${GAP}${bigUnit} ${String(small)}${GAP}${smallUnit}`;
}

export function moneyScale(currency: string): Scale {
  return { divisor: 1, unit: currency };
}
