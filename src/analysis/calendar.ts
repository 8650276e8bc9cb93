import { SECOND } from '../kernel/clock.js';
import type { Booked } from './complete.js';
import type { Calendar, FinishPoint } from './results.js';

const MOST_SESSIONS = 120;

/** Sessions up to the one in which all is complete, the granted time included. */
export function calendarOf(
  { bookings, start }: Booked,
  strategies: readonly { readonly finishing: readonly FinishPoint[] }[],
  granted: { readonly end: number } | null,
): Calendar {
  const last = Math.max(granted?.end ?? 0, ...strategies.map(({ finishing }) => finishing.at(-1)?.time ?? 0));
  const sessions: Calendar['sessions'][number][] = [];
  const inSeconds = (moment: number) => (moment - start) / SECOND;
  let opens = bookings.opening(start);
  while (!bookings.isAlways && Number.isFinite(opens) && sessions.length < MOST_SESSIONS) {
    const closes = bookings.closing(opens);
    sessions.push({ start: inSeconds(opens), end: inSeconds(closes) });
    if (inSeconds(closes) >= last) break;
    opens = bookings.opening(closes);
  }
  return { startsAt: start / SECOND, sessions };
}
