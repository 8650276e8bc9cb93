import type { Calendar } from '../../analysis/results.js';
import { WEEKDAYS } from '../../wording/phrases.js';

const DAY = 86_400;

/** Seconds of booked time up to a moment: nights and other time in which nothing can happen are folded away. */
export function foldedTime({ sessions }: Calendar, time: number): number {
  if (sessions.length === 0) return time;
  return sessions.reduce((sum, { start, end }) => sum + Math.max(0, Math.min(time, end) - start), 0);
}

/** Number of the day of a moment, from the Monday that times count from. */
export function dayOf({ startsAt }: Calendar, time: number): number {
  return Math.floor((startsAt + time) / DAY);
}

/** `Mon`, `Tue` … */
export function weekdayOf(day: number): string {
  return WEEKDAYS[day % 7];
}

/** Hour of the day of a moment that lies on that day, above 24 where it is already on the next one. */
export function hourOn({ startsAt }: Calendar, day: number, time: number): number {
  return (startsAt + time - day * DAY) / 3600;
}
