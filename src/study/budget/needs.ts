import type { CampaignModel } from '../../campaign/model.js';
import type { Outcome } from '../../campaign/outcome.js';
import { microseconds, SECOND } from '../../kernel/clock.js';
import type { Strategy } from '../../scenario/load.js';

/** Specimens that are never short. */
const PLENTY = 1_000_000;

/** The strategy with all at hand that it comes to need: what that is, is the question. */
export function withEnoughStock(strategy: Strategy): Strategy {
  return { ...strategy, settings: { ...strategy.settings, stock: { tips: {}, specimens: { atHand: PLENTY } } } };
}

/** What one campaign needed, so that a request can be held against it. */
export interface Needs {
  /** Booked seconds from the start to the end of the last step; Infinity where it was not finished. */
  readonly time: number;
  /** All seconds from the start to the end of the last step; Infinity where it was not finished. */
  readonly calendar: number;
  /** Whole sessions up to there; Infinity where it was not finished or there are no bookings. */
  readonly sessions: number;
  readonly cost: number;
  readonly yield: number;
  readonly isFinished: boolean;
  /** In the order of `itemNames`. */
  readonly items: readonly number[];
}

/** What a strategy orders: probes of each kind, or chips and specimens. */
export function itemNames({ workflow, settings }: CampaignModel): readonly string[] {
  const kinds = Object.keys(settings.tips).filter((kind) => settings.plan.passes.some(({ tip }) => tip === kind));
  return workflow === 'swap' ? kinds.map((kind) => `${kind} tips`) : ['chips', 'specimens'];
}

export function needsOf(model: CampaignModel, outcome: Outcome): Needs {
  const { isFinished, totalTime, cost } = outcome;
  const calendar = isFinished ? totalTime : Infinity;
  const end = model.start + microseconds(totalTime);
  const time = isFinished ? model.bookings.openBetween(model.start, end) / SECOND : Infinity;
  const items =
    model.workflow === 'swap'
      ? itemNames(model).map((name) => outcome.tipRecords.filter(({ kind }) => `${kind} tips` === name).length)
      : [outcome.chips, outcome.specimens];
  return { time, calendar, sessions: sessionsFor(model, calendar), cost, yield: outcome.yield, isFinished, items };
}

/** Sessions, from the start on, at whose end this many seconds since the start have passed. */
function sessionsFor({ bookings, start }: CampaignModel, time: number): number {
  if (bookings.isAlways || time === Infinity) return Infinity;
  const end = start + microseconds(time);
  let sessions = 1;
  while (bookings.sessionEnd(start, sessions) < end) sessions += 1;
  return sessions;
}

/** Seconds from the start to the end of so many sessions. */
export function calendarOf({ bookings, start }: CampaignModel, sessions: number): number {
  return (bookings.sessionEnd(start, sessions) - start) / SECOND;
}

/** Booked seconds of the first so many sessions, on each instrument. */
export function bookedTimeOf({ bookings, start }: CampaignModel, sessions: number): number {
  return bookings.openBetween(start, bookings.sessionEnd(start, sessions)) / SECOND;
}
