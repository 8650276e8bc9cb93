import type { CampaignModel } from '../campaign/model.js';
import { microseconds, SECOND } from '../kernel/clock.js';
import { countsUpTo } from '../statistics/numbers.js';
import type { Campaigns } from '../execution/collector.js';
import { chanceOf } from './estimate.js';
import type { Estimate } from '../statistics/estimate.js';

/*
 * A campaign is complete within an allocation where it is finished with instrument time at most the allocation. So the
 * instrument time of those that are finished says it all, for every allocation and in every study. What runs past the end of
 * a booking is overrun, and late reviews that flag nothing need no booking: neither counts.
 */

/** Hours in which an instrument is booked, and when the experiment starts. */
export type Booked = Pick<CampaignModel, 'bookings' | 'start'>;

/** Instrument time with which each campaign is complete, in seconds; Infinity where it never is. */
export function timesToComplete({ values, finishedAt }: Pick<Campaigns, 'values' | 'finishedAt'>): Float64Array {
  return values.instrumentTime.map((time, i) => (Number.isNaN(finishedAt[i]) ? Infinity : time));
}

/** The probability of completion within each of several allocations, in seconds and in ascending order. */
export function chancesWithin(times: Float64Array, allocations: readonly number[]): readonly Estimate[] {
  return countsUpTo(times, allocations).map((count) => chanceOf(count, times.length));
}

/** Booked seconds of the first so many sessions, on each instrument. */
export function bookedTimeOf({ bookings, start }: Booked, sessions: number): number {
  return bookings.openBetween(start, bookings.sessionEnd(start, sessions)) / SECOND;
}

/** Booked seconds up to the end of the granted time, on each instrument; null where none is granted. */
export function allocatedTime({ bookings, start, allocationEnd }: CampaignModel): number | null {
  return allocationEnd === null ? null : bookings.openBetween(start, allocationEnd) / SECOND;
}

/** Sessions that hold so many booked seconds; Infinity where there are no bookings, or no amount of them does. */
export function sessionsFor(booked: Booked, time: number): number {
  if (booked.bookings.isAlways || time === Infinity) return Infinity;
  let sessions = 1;
  while (bookedTimeOf(booked, sessions) < time) sessions += 1;
  return sessions;
}

/** Seconds since the start at which so much booked time has passed, nights and weekends in it. */
export function calendarAfter({ bookings, start }: Booked, time: number): number {
  return (bookings.afterOpen(start, microseconds(time)) - start) / SECOND;
}
