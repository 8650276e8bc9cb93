/** Numbers, times and intervals as people write them; the interval says how many digits an estimate deserves. */

import type { Estimate } from '../statistics/estimate.js';

/** A unit for numbers that are shown together: what to divide by, and what stands behind the number. */
export interface Scale {
  readonly divisor: number;
  readonly unit: string;
}

export const SHARE: Scale = { divisor: 0.01, unit: '%' };
export const PLAIN: Scale = { divisor: 1, unit: '' };
/** Shares differ by points, since per cent of a share would mislead: `POINTS` in tables, the other in sentences. */
export const POINTS: Scale = { divisor: 0.01, unit: 'points' };
export const PERCENTAGE_POINTS: Scale = { divisor: 0.01, unit: 'percentage points' };
const SECOND: Scale = { divisor: 1, unit: 's' };
const MINUTE: Scale = { divisor: 60, unit: 'min' };
const HOUR: Scale = { divisor: 3600, unit: 'h' };
const DAY: Scale = { divisor: 86_400, unit: 'd' };

/** Narrow no-break space between groups of digits, no-break space before a unit. */
const GROUP = '\u202f';
const GAP = '\u00a0';

/** With ordinary spaces, for data, and for terminals of which some give the narrow ones no column. */
export function plainSpaces(text: string): string {
  return text.replace(/[\u00a0\u202f]/g, ' ');
}

/** Working time is said in hours, however long. */
export function workScale(seconds: number): Scale {
  if (seconds < 180) return SECOND;
  return seconds < 3 * 3600 ? MINUTE : HOUR;
}

/** Time on the wall is said in days from the fourth day on. */
export function calendarScale(seconds: number): Scale {
  return seconds >= 4 * 86_400 ? DAY : workScale(seconds);
}

/** From so many seconds on a sentence says working time in hours and minutes. */
const LONG = 5400;

/** Working time in a sentence, to the minute: `29 min`, `2 h 10 min`, `52 h`. */
export function timeText(seconds: number): string {
  return plainSpaces(Math.abs(seconds) < LONG ? withUnit(fixed(seconds / 60, 0), MINUTE) : hoursText(seconds, 1));
}

/** Hours and minutes, rounded to so many minutes. */
function hoursText(seconds: number, step: number): string {
  const minutes = Math.round(Math.abs(seconds) / 60 / step) * step;
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  const parts = [...(hours > 0 ? [`${fixed(hours, 0)}${GAP}h`] : []), ...(rest > 0 ? [`${rest}${GAP}min`] : [])];
  return `${seconds < 0 && minutes > 0 ? '\u2212' : ''}${parts.length === 0 ? `0${GAP}min` : parts.join(' ')}`;
}

/** To so many minutes a time may be rounded. */
const STEPS = [60, 30, 10, 5, 1];

/** The size of a length of working time with its interval, in a sentence: `29 min (26 to 31)`, `2 h 10 min (1 h 50 min to 2 h 30 min)`. */
export function timeEstimate(estimate: Estimate): EstimateText {
  const { value, low, high } = estimate;
  if (Math.max(Math.abs(low), Math.abs(high)) < LONG) return estimateText(estimate, MINUTE, 'size');
  const halfWidth = (high - low) / 120;
  // An end that leaves zero out must not read as zero.
  const keepsZero = (step: number) => low * high <= 0 || Math.min(Math.abs(low), Math.abs(high)) / 60 > step / 2;
  const step = STEPS.find((each) => each <= halfWidth / 2 && keepsZero(each)) ?? 1;
  const [text, from, to] = [value, low, high].map((seconds) => hoursText(seconds, step));
  return { value: text, interval: isNothing(halfWidth, value / 60) ? '' : `${from} to ${to}` };
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
  return Math.min(4, Math.max(0, -decadeOf(halfWidth / 2)));
}

/** Half-widths that only rounding has made: nothing varied. */
function isNothing(halfWidth: number, value: number): boolean {
  return !(halfWidth > 1e-9 * Math.abs(value));
}

function magnitude(value: number): number {
  return value === 0 ? 0 : decadeOf(Math.abs(value));
}

/** A positive number, to two digits, and never less than it is. */
export function roundedUp(value: number): number {
  const near = Number(value.toPrecision(2));
  return near >= value ? near : Number((near + Number(`1e${decadeOf(value) - 1}`)).toPrecision(2));
}

/** The exponent of the power of ten that a positive number begins with; one that misses the next only by rounding counts as that. */
export function decadeOf(value: number): number {
  if (!Number.isFinite(value)) return value;
  return Number((value * (1 + 2e-9)).toExponential().split('e')[1]);
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

/** A share in a sentence: `79 %`, `5.3 %`, `less than 0.1 %`. */
export function percentText(share: number): string {
  const percents = Math.abs(100 * share);
  if (percents > 0 && percents < 0.05) return 'less than 0.1 %';
  return `${percents.toFixed(1).replace(/\.0$/u, '')} %`;
}

/** A share that somebody asked for, with all its digits. */
export function percentAsked(share: number): string {
  return `${Number((100 * share).toFixed(4))} %`;
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

/**
 * A value and its interval with the digits that the interval leaves meaningful.
 * @param as an amount; a difference with its signs; or the size of a difference, without them
 */
export function estimateText(
  estimate: Estimate,
  scale: Scale,
  as: 'amount' | 'difference' | 'size' = 'amount',
): EstimateText {
  const value = estimate.value / scale.divisor;
  const low = estimate.low / scale.divisor;
  const high = estimate.high / scale.divisor;
  let decimals = decimalsFor((high - low) / 2, value);
  // An end of a difference that leaves zero out must not read as zero.
  const readsZero = (end: number): boolean => Number(end.toFixed(decimals)) === 0;
  while (as !== 'amount' && low * high > 0 && decimals < 4 && (readsZero(low) || readsZero(high))) decimals += 1;
  const say = (number: number): string => {
    const text = fixed(number, decimals);
    return as === 'difference' && number > 0 && /[1-9]/.test(text) ? `+${text}` : text;
  };
  return {
    value: withUnit(say(value), scale),
    interval: !isNothing((high - low) / 2, value) ? `${say(low)} to ${say(high)}` : '',
  };
}

/** Value and interval in one line. */
export function estimateLine(estimate: Estimate, scale: Scale, as?: Parameters<typeof estimateText>[2]): string {
  const text = estimateText(estimate, scale, as);
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

/** The ends of an interval alone: `−30 to +20 min`. */
export function spanText(
  { low, high }: Pick<Estimate, 'low' | 'high'>,
  scale: Scale,
  as?: Parameters<typeof estimateText>[2],
): string {
  const { interval } = estimateText({ value: (low + high) / 2, low, high }, scale, as);
  return interval === '' ? 'none seen' : withUnit(interval, scale);
}
