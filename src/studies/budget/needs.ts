import type { CampaignModel } from '../../campaign/model.js';
import { SECOND } from '../../kernel/clock.js';
import type { Strategy } from '../../scenario/load.js';
import { OrderStatistics } from '../../statistics/order-statistics.js';
import type { Campaigns } from '../../execution/collector.js';
import { type Booked, sessionsFor, timesToComplete } from '../../analysis/complete.js';
import type { Wants } from '../../execution/batch.js';

/** Specimens that are never short. */
const PLENTY = 1_000_000;

/** The strategy with all at hand that it comes to need: what that is, is the question. */
export function withEnoughStock(strategy: Strategy): Strategy {
  return { ...strategy, settings: { ...strategy.settings, stock: { tips: {}, specimens: { atHand: PLENTY } } } };
}

/** What campaigns needed, one by one, so that a request can be held against them; columns of one length. */
export interface Needs {
  readonly count: number;
  /** Instrument time with which it is complete, in seconds; Infinity where it never is. */
  readonly time: Float64Array;
  /** Whole sessions that hold it; Infinity where it never is complete or there are no bookings. */
  readonly sessions: Float64Array;
  /** Seconds from the start to the end of the last review; Infinity where it was not finished. */
  readonly reviewed: Float64Array;
  /** Infinity where it was not finished. */
  readonly cost: Float64Array;
  /** In the order of `itemNames`; Infinity where it was not finished. */
  readonly items: readonly Float64Array[];
}

/** Kinds of tips that the plan takes images with. */
function kindsOf({ settings }: CampaignModel): readonly string[] {
  return Object.keys(settings.tips).filter((kind) => settings.plan.passes.some(({ tip }) => tip === kind));
}

/** What a strategy orders: probes of each kind, or chips and specimens. */
export function itemNames(model: CampaignModel): readonly string[] {
  return model.workflow === 'swap' ? kindsOf(model).map((kind) => `${kind} tips`) : ['chips', 'specimens'];
}

/** What must be kept of campaigns to know what they needed, and what comes of the granted time. */
export function wantsFor(models: readonly CampaignModel[]): Wants {
  return { cut: true, tipsOf: [...new Set(models.flatMap(kindsOf))] };
}

/** @param campaigns with the columns of `wantsFor` */
export function needsOf(model: CampaignModel, campaigns: Campaigns): Needs {
  const { values, finishedAt, count } = campaigns;
  const orNever = (column: Float64Array) => column.map((value, i) => (Number.isNaN(finishedAt[i]) ? Infinity : value));
  const time = timesToComplete(campaigns);
  return {
    count,
    time,
    sessions: time.map((each) => sessionsFor(model, each)),
    reviewed: orNever(values.confirmedAt),
    cost: orNever(values.cost),
    items:
      model.workflow === 'swap'
        ? kindsOf(model).map((kind) => orNever(campaigns.column(`tips of ${kind}`)))
        : [orNever(values.chips), orNever(values.specimens)],
  };
}

/** The same by rank, for all chances that are asked for. */
export interface RankedNeeds {
  readonly time: OrderStatistics;
  readonly sessions: OrderStatistics;
  readonly reviewed: OrderStatistics;
  readonly cost: OrderStatistics;
  readonly items: readonly OrderStatistics[];
}

export function ranked({ time, sessions, reviewed, cost, items }: Needs): RankedNeeds {
  return {
    time: new OrderStatistics(time),
    sessions: new OrderStatistics(sessions),
    reviewed: new OrderStatistics(reviewed),
    cost: new OrderStatistics(cost),
    items: items.map((item) => new OrderStatistics(item)),
  };
}

/** Seconds from the start to the end of so many sessions. */
export function calendarOf({ bookings, start }: Booked, sessions: number): number {
  return (bookings.sessionEnd(start, sessions) - start) / SECOND;
}
