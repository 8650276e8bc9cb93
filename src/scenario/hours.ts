import * as z from 'zod';
import { type Span, WEEK } from '../kernel/hours.js';
import type { Reading } from './quantity.js';
import { notText, show } from './show.js';

const MINUTE = 60_000_000;
const DAY = 1440 * MINUTE;
export const DAYS = ['Mo', 'Tu', 'We', 'Th', 'Fr', 'Sa', 'Su'];
/** A semicolon, or a comma that stands between a time and the next day. */
const BETWEEN_GROUPS = /;|(?<=\d\s*),(?=\s*[A-Za-z])/u;
const WANTED = 'weekly hours such as `Mo-Fr 09:00-17:00`, or `always`, are wanted';

/**
 * Reads weekly hours in the form of schema.org's `openingHours`: `Mo-Fr 09:00-17:00`, `Mo,We 08:00-12:00,13:00-17:00`,
 * several joined by `;`, or `always`. Half-open spans in microseconds of a week that starts on Monday 00:00; a range
 * that passes midnight runs on into the next day, past the end of the week if need be.
 */
export function readHours(text: string): Reading<readonly Span[]> {
  if (text.trim() === 'always') return { ok: true, value: [{ from: 0, to: WEEK }] };
  const spans: Span[] = [];
  for (const group of text.split(BETWEEN_GROUPS)) {
    const read = readGroup(group.trim());
    if (read === null) return { ok: false, message: `read ${show(text)}; ${WANTED}` };
    if (typeof read === 'string') return { ok: false, message: `read ${show(text)}, ${read}; ${WANTED}` };
    spans.push(...read);
  }
  return { ok: true, value: spans };
}

/** One group of days with its times; null where it is nothing of the kind, a text where it is but says something impossible. */
function readGroup(group: string): readonly Span[] | string | null {
  const match = /^([A-Za-z,\- ]+?)\s+([\d:,\- ]+)$/u.exec(group.length > 200 ? '' : group);
  if (match === null) return null;
  const [, written = '', times = ''] = match;
  const days = readDays(written);
  if (days === null) return 'whose days are not among Mo, Tu, We, Th, Fr, Sa, Su';
  const spans: Span[] = [];
  for (const range of times.split(',')) {
    const ends = /^(\d\d?:\d\d)\s*-\s*(\d\d?:\d\d)$/u.exec(range.trim());
    if (ends === null) return null;
    const [, first = '', last = ''] = ends;
    const opens = minuteOfDay(first);
    const closes = minuteOfDay(last);
    if (opens === null || closes === null) return 'where a time is not between 00:00 and 24:00';
    if (opens === closes) return 'where a range has no length (a whole day is 00:00-24:00)';
    const length = (closes > opens ? closes - opens : closes + 1440 - opens) * MINUTE;
    for (const day of days) spans.push({ from: day * DAY + opens * MINUTE, to: day * DAY + opens * MINUTE + length });
  }
  return spans;
}

function readDays(text: string): readonly number[] | null {
  const days: number[] = [];
  for (const part of text.split(',')) {
    const ends = part.split('-').map((day) => DAYS.indexOf(day.trim()));
    const [first = -1, last = first] = ends;
    if (ends.length > 2 || first < 0 || last < 0) return null;
    const count = ((last - first + 7) % 7) + 1;
    for (let i = 0; i < count; i += 1) days.push((first + i) % 7);
  }
  return days;
}

function minuteOfDay(text: string): number | null {
  const [hour = 0, minute = 0] = text.split(':').map(Number);
  const total = hour * 60 + minute;
  return minute < 60 && total <= 1440 ? total : null;
}

/** A schema for weekly hours: one text, or a list of texts as schema.org has it. */
export function hoursText() {
  return z
    .union([z.string(), z.array(z.string()).min(1)], { error: (issue) => notText(issue.input, '', WANTED) })
    .transform((texts, context): readonly Span[] => {
      const reading = readHours(typeof texts === 'string' ? texts : texts.join(';'));
      if (reading.ok) return reading.value;
      context.addIssue({ code: 'custom', message: reading.message });
      return z.NEVER;
    });
}

/** A schema for a moment of the week, `Mo 09:00`; microseconds from Monday 00:00. */
export function momentText() {
  const refusal = (value: unknown) => notText(value, '', 'a moment of the week such as `Mo 09:00` is wanted');
  return z.string({ error: (issue) => refusal(issue.input) }).transform((text, context): number => {
    const match = /^([A-Z][a-z])\s+(\d\d?:\d\d)$/u.exec(text.trim());
    const day = DAYS.indexOf(match?.[1] ?? '');
    const minute = minuteOfDay(match?.[2] ?? '');
    if (match !== null && day >= 0 && minute !== null) return (day * DAY + minute * MINUTE) % WEEK;
    context.addIssue({ code: 'custom', message: refusal(text) });
    return z.NEVER;
  });
}
