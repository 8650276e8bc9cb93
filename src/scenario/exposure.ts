import * as z from 'zod';
import type { ExposureUnit } from '../probe/settings.js';
import { inside, LARGEST, readQuantity, splitQuantity, tidy, type Reading } from './quantity.js';
import { notText, show } from './show.js';

export { EXPOSURE_UNITS, type ExposureUnit } from '../probe/settings.js';

const EXAMPLES: Readonly<Record<ExposureUnit, string>> = {
  image: '200',
  distance: '80 mm',
  hour: '30 h',
  approach: '500',
};

/** A shorter life than this is a slip of the pen, and would have a tip spoiled without end: in each exposure unit. */
const SHORTEST_LIFE: Readonly<Record<ExposureUnit, { readonly value: number; readonly text: string }>> = {
  image: { value: 0.01, text: '0.01 images' },
  distance: { value: 1e-4, text: '1e-4 mm' },
  hour: { value: 1e-3, text: '1e-3 h' },
  approach: { value: 0.01, text: '0.01 approaches' },
};

/** The shortest life that may be written like `written`, in the unit used inside for such a text (millimetres, seconds, or a count). */
export function shortestLife(written: number | string): number {
  if (typeof written === 'string' && readQuantity('path', written).ok) return SHORTEST_LIFE.distance.value;
  if (typeof written === 'string' && readQuantity('time', written).ok) return SHORTEST_LIFE.hour.value * 3600;
  return SHORTEST_LIFE.image.value;
}

/** Reads an amount of exposure: `80 mm` (in millimetres), `30 h` (in hours), `200` or `200 images`, `500` or `500 approaches`. */
export function readExposure(unit: ExposureUnit, written: number | string): Reading<number> {
  const reading = typeof written === 'number' ? readBare(unit, written) : readText(unit, written);
  if (!reading.ok) return reading;
  if (reading.value > 0 && reading.value <= LARGEST) return reading;
  return { ok: false, message: `read ${show(written)}; more than zero and at most ${LARGEST} is wanted` };
}

function readBare(unit: ExposureUnit, value: number): Reading<number> {
  if (unit === 'image' || unit === 'approach') return { ok: true, value };
  return {
    ok: false,
    message: `read ${show(value)}, which has no unit; as this is counted per ${unit}, \`${EXAMPLES[unit]}\` or the like is wanted`,
  };
}

function readText(unit: ExposureUnit, text: string): Reading<number> {
  if (unit === 'distance') return readQuantity('path', text);
  if (unit === 'hour') {
    const reading = readQuantity('time', text);
    return reading.ok ? { ok: true, value: tidy(reading.value / 3600) } : reading;
  }
  const parts = splitQuantity(text);
  const words = unit === 'image' ? ['', 'image', 'images'] : ['', 'approach', 'approaches'];
  if (parts !== null && words.includes(parts.unit)) return { ok: true, value: parts.number };
  return {
    ok: false,
    message: `read ${show(text)}; as this is counted per ${unit}, a number such as \`${EXAMPLES[unit]}\` is wanted`,
  };
}

/** What is wrong with an amount of exposure as written, where it is counted per `unit`; null where nothing is. */
export function amountRefusal(unit: ExposureUnit, written: number | string): string | null {
  const reading = readExposure(unit, written);
  if (!reading.ok) return reading.message;
  const { value, text } = SHORTEST_LIFE[unit];
  return reading.value < value ? `read ${show(written)}; a life of at least ${text} is wanted` : null;
}

/** What an amount of exposure written with this unit (or none) is in the unit used inside: millimetres, hours, or a count. */
export function amountOf(number: number, unit: string): number {
  const path = inside('path', number, unit);
  const time = inside('time', number, unit);
  return path ?? (time === null ? number : tidy(time / 3600));
}

/**
 * A schema for an amount of exposure, which gives a number in millimetres, hours, images or approaches. Which of them may
 * stand somewhere is not known here: see `amountRefusal`.
 */
export function exposureText() {
  const text = z.union([z.number(), z.string().max(100)], {
    error: (issue) =>
      notText(issue.input, '', 'an amount of exposure such as `200` images, `80 mm` or `30 h` is wanted'),
  });
  return text.transform((written): number => {
    const parts = typeof written === 'number' ? { number: written, unit: '' } : splitQuantity(written);
    return parts === null ? Number.NaN : amountOf(parts.number, parts.unit);
  });
}

/** Use after which a tip goes: images, millimetres of path or hours of scanning. */
export interface UseLimit {
  readonly unit: 'image' | 'distance' | 'hour';
  readonly amount: number;
}

/** A schema for the use after which a tip goes: `20 images`, `5 mm` or `3 h`. */
export function useLimitText() {
  const refusal = (value: unknown) =>
    notText(value, 'which has no unit', 'a use such as `20 images`, `5 mm` of path or `3 h` of scanning is wanted');
  return z.string({ error: (issue) => refusal(issue.input) }).transform((text, context): UseLimit => {
    for (const unit of ['image', 'distance', 'hour'] as const) {
      const reading = readExposure(unit, text);
      if (reading.ok && splitQuantity(text)?.unit !== '') return { unit, amount: reading.value };
    }
    context.addIssue({ code: 'custom', message: refusal(text) });
    return z.NEVER;
  });
}

/** Granted time: booked sessions, or hours inside bookings. */
export interface Allocation {
  readonly unit: 'session' | 'hour';
  readonly amount: number;
}

/** Units of time that mean the same in and out of bookings. */
const SMALL_TIMES = /^(?:ms|s|secs?|seconds?|min|mins|minutes?|h|hr|hrs|hours?)$/u;

/** A day or a week may be meant by the clock or in booked hours. */
function ambiguous(text: string, count: number, hours: number): string {
  const isDays = tidy(hours / count) === 24;
  const whole = isDays ? 'a day' : tidy(hours / count) === 168 ? 'a week' : 'this time';
  const sessions = isDays && count <= 1 ? '1 session' : `${isDays ? Math.ceil(count) : 5} sessions`;
  return `read ${show(text)}; ${whole} may be ${tidy(hours / count)} h or only what is booked of it; write sessions such as \`${sessions}\`, or hours such as \`40 h\``;
}

/** A schema for granted time: `5 sessions` or `40 h`; days and weeks are refused. */
export function allocationText() {
  const refusal = (value: unknown) =>
    notText(value, 'which has no unit', 'granted time such as `5 sessions` or `40 h` is wanted');
  return z.string({ error: (issue) => refusal(issue.input) }).transform((text, context): Allocation => {
    const parts = splitQuantity(text);
    if (
      parts !== null &&
      /^sessions?$/u.test(parts.unit) &&
      Number.isInteger(parts.number) &&
      parts.number >= 1 &&
      parts.number <= 1e6
    ) {
      return { unit: 'session', amount: parts.number };
    }
    const reading = readExposure('hour', text);
    const isInHours = parts !== null && SMALL_TIMES.test(parts.unit);
    if (reading.ok && isInHours) return { unit: 'hour', amount: reading.value };
    const message = reading.ok && parts !== null ? ambiguous(text, parts.number, reading.value) : refusal(text);
    context.addIssue({ code: 'custom', message });
    return z.NEVER;
  });
}
