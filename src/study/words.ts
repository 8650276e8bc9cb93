import type { Difference, Estimate, StrategySummary } from './results.js';

/** Why a campaign may never be finished. */
export const WHY_UNFINISHED =
  'what is needed runs out, no booking suffices, or one tip or specimen after the other goes and nothing comes of it';

/** Numbers as a verdict says them: as many digits as the interval leaves meaningful, then the unit. */

interface Saying {
  readonly divisor: number;
  readonly unit: string;
}

function sayingOf(measure: Difference['measure'], size: number, currency: string): Saying {
  switch (measure) {
    case 'time':
    case 'operatorTime':
      return size < 5400 ? { divisor: 60, unit: ' min' } : { divisor: 3600, unit: ' h' };
    case 'yield':
    case 'silentBadShare':
    case 'withinAllocation':
    case 'finishes':
      return { divisor: 0.01, unit: ' percentage points' };
    case 'tips':
      return { divisor: 1, unit: ' tips' };
    case 'cost':
      return { divisor: 1, unit: ` ${currency}` };
  }
}

/** Size of a difference without its sign, such as `1.2 h`, and its interval, such as `0.8 to 1.6`. */
export interface Size {
  readonly size: string;
  readonly interval: string;
}

/** Size of a difference with its interval, such as `1.2 h (0.8 to 1.6)`. */
export function sizeText(measure: Difference['measure'], estimate: Estimate, currency: string): string {
  const { size, interval } = sizeOf(measure, estimate, currency);
  return `${size} (${interval})`;
}

/** The two parts of `sizeText`. */
export function sizeOf(measure: Difference['measure'], estimate: Estimate, currency: string): Size {
  const { divisor, unit } = sayingOf(measure, Math.max(Math.abs(estimate.low), Math.abs(estimate.high)), currency);
  const sign = estimate.value < 0 ? -1 : 1;
  let digits = decimals(Math.abs(estimate.high - estimate.low) / 2 / divisor);
  const say = (value: number) => ((sign * value) / divisor).toFixed(digits).replace(/^-(0(?:\.0*)?)$/u, '$1');
  // An end of an interval that leaves zero out must not read as zero.
  const isTold = estimate.low * estimate.high > 0;
  while (isTold && digits < 4 && [estimate.low, estimate.high].some((end) => Number(say(end)) === 0)) digits += 1;
  const ends = [say(estimate.low), say(estimate.high)];
  if (sign < 0) ends.reverse();
  return { size: `${say(estimate.value)}${unit}`, interval: `${ends[0]} to ${ends[1]}` };
}

/** A span such as `−30 to +20 min`; without signs where it is of no difference. */
export function signedSpan(
  measure: Difference['measure'],
  { low, high }: Pick<Estimate, 'low' | 'high'>,
  currency: string,
  isSigned = true,
): string {
  const { divisor, unit } = sayingOf(measure, Math.max(Math.abs(low), Math.abs(high)), currency);
  const digits = decimals((high - low) / 2 / divisor);
  const say = (value: number) => {
    const text = Math.abs(value / divisor).toFixed(digits);
    if (!isSigned || Number(text) === 0) return text;
    return `${value < 0 ? '\u2212' : '+'}${text}`;
  };
  return `${say(low)} to ${say(high)}${unit}`;
}

/** Hours as a plain number with one decimal, minutes below an hour. */
export function timeText(seconds: number): string {
  return seconds < 5400 ? `${Math.floor(seconds / 60 + 0.5)} min` : `${(seconds / 3600).toFixed(1)} h`;
}

/** Decimals that keep one or two digits of a half-width. */
function decimals(halfWidth: number): number {
  if (!(halfWidth > 0)) return 1;
  let digits = 0;
  for (let size = halfWidth; size < 2 && digits < 4; size *= 10) digits += 1;
  return digits;
}

export const OPERATOR_TIME = 'operator time';

export const INSTRUMENT_TIME = 'instrument time';

export const TIME_PER_GOOD = 'instrument time per good image';

/** What a compared measure is called. */
export function measureName(measure: Difference['measure']): string {
  switch (measure) {
    case 'time':
      return INSTRUMENT_TIME;
    case 'operatorTime':
      return OPERATOR_TIME;
    case 'silentBadShare':
      return 'undetected bad share';
    case 'withinAllocation':
      return 'completion within the allocation';
    case 'finishes':
      return 'completion';
    case 'yield':
    case 'tips':
    case 'cost':
      return measure;
  }
}

/** A strategy's name in quotation marks that no name can contain. */
export function quoted(strategy: Pick<StrategySummary, 'name'> | string): string {
  return `“${typeof strategy === 'string' ? strategy : strategy.name}”`;
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(items: readonly string[]): string {
  if (items.length <= 1) return items.join('');
  return `${items.slice(0, -1).join(', ')} and ${items[items.length - 1]}`;
}
