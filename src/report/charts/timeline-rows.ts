/** Timelines made fit to draw: rows of blocks, without the hours in which everything is closed, and few enough. */

import { ACTIVITIES, type Activity } from '../../campaign/activities.js';
import type { Timeline, TipStretch } from '../../analysis/results.js';
import { decadeOf, type Scale, unitName, workScale } from '../../wording/numbers.js';
import { TIP_STATE_TONES } from '../palette.js';
import { uniqueLabels } from '../text.js';
import { type Block, blocks, joined, type Stretch, withoutClosed } from './strips.js';

/** A tip that is on an instrument, in the state that it is in. */
export interface Mounted {
  readonly tip: string;
  readonly state: TipStretch['state'];
}

/** Of a tip, from sound to worst. */
export const STATES: readonly string[] = Object.keys(TIP_STATE_TONES);
const CLOSED: Activity = 'waiting for a booking';

/** Marks of activities in one picture at most. */
const MOST_MARKS = 3000;

interface Row {
  readonly name: string;
  readonly activities: readonly Stretch<Activity>[];
  readonly tips: readonly Stretch<Mounted>[];
  /** Rates in nanometres a second. */
  readonly drift: readonly Stretch<number>[];
  /** Where time between bookings was cut out. */
  readonly cuts: readonly number[];
}

export function timelineEnd(timelines: readonly Timeline[]): number {
  return timelines.reduce((last, { segments }) => segments.reduce((latest, { end }) => Math.max(latest, end), last), 1);
}

/** Time between bookings is left out; up to this many places where a row lost some are marked. */
const MOST_CUTS = 80;

/** What is said of timelines beside their picture. */
interface Facts {
  /** Places where the row that lost the most time lost some. */
  readonly mostCuts: number;
  /** Whether some row has more stretches than are drawn one by one. */
  readonly isCondensed: boolean;
}

/** Rows may have a hundred thousand stretches each, so they are made for the picture only, and what is said of them is kept. */
const knownFacts = new WeakMap<readonly Timeline[], Facts>();

function factsOf(timelines: readonly Timeline[], given?: readonly Row[]): Facts {
  const known = knownFacts.get(timelines);
  if (known !== undefined) return known;
  const all = given ?? rows(timelines);
  const facts: Facts = {
    mostCuts: Math.max(0, ...all.map(({ cuts }) => cuts.length)),
    isCondensed: all.some(({ activities }) => joined(activities, (a, b) => a === b).length > mostStretches(all)),
  };
  knownFacts.set(timelines, facts);
  return facts;
}

/** What a caption says of time left out; empty where none is. */
export function closedText(timelines: readonly Timeline[]): string {
  const { mostCuts } = factsOf(timelines);
  if (mostCuts === 0) return '';
  const text = 'Nights and other time between bookings are left out';
  return mostCuts > MOST_CUTS ? `${text}.` : `${text}; short vertical lines mark where.`;
}

/** Whether a caption must say that columns show shares. */
export function isCondensed(timelines: readonly Timeline[]): boolean {
  return factsOf(timelines).isCondensed;
}

function rows(timelines: readonly Timeline[]): readonly Row[] {
  const several = timelines.some((timeline) => timeline.segments.some((segment) => segment.instrument > 0));
  return timelines.flatMap((timeline) => {
    const instruments = [...new Set(timeline.segments.map((segment) => segment.instrument))].sort((a, b) => a - b);
    return instruments.map((instrument) => {
      const activities = timeline.segments
        .filter((segment) => segment.instrument === instrument)
        .map(({ start, end, activity }) => ({ start, end, what: activity }));
      const tips = timeline.tips
        .filter((stretch) => stretch.instrument === instrument)
        .map(({ start, end, tip, state }) => ({ start, end, what: { tip, state } }));
      const drift = (timeline.drift ?? [])
        .filter((stretch) => stretch.instrument === instrument)
        .map(({ start, end, rate }) => ({ start, end, what: rate }));
      const closed = activities.filter(({ what }) => what === CLOSED);
      const open = withoutClosed(
        activities.filter(({ what }) => what !== CLOSED),
        closed,
      );
      return {
        name: several ? `${timeline.strategy}, no. ${String(instrument + 1)}` : timeline.strategy,
        activities: open.stretches,
        tips: withoutClosed(tips, closed).stretches,
        drift: closed.length === 0 ? drift : withoutClosed(drift, closed).stretches,
        cuts: open.cuts,
      };
    });
  });
}

/** Stretches of one row up to which each is drawn by itself. */
function mostStretches(all: readonly Row[]): number {
  return Math.max(120, Math.min(700, Math.floor(MOST_MARKS / all.length)));
}

/** One row as it is drawn, times in the unit of the whole. */
export interface DrawnRow {
  readonly name: string;
  readonly activities: readonly Block<Activity>[];
  readonly tips: readonly Block<Mounted>[];
  /** Rates in nanometres a second. */
  readonly drift: readonly Stretch<number>[];
  /** Where time between bookings was cut out; none where there are too many to mark. */
  readonly cuts: readonly number[];
}

/** Rates, in nanometres a second, between which all are drawn. */
export interface RateLimits {
  readonly low: number;
  readonly high: number;
}

/** What a picture of timelines is drawn from. */
export interface DrawnTimelines {
  readonly rows: readonly DrawnRow[];
  /** What occurs, in the order of the legend. */
  readonly activities: readonly Activity[];
  readonly states: readonly TipStretch['state'][];
  /** Null where nothing drifts. */
  readonly rates: RateLimits | null;
  readonly end: number;
  readonly scale: Scale;
  /** Of the axis of time. */
  readonly title: string;
}

/** A row for each strategy and instrument; null where there is none. */
export function drawnTimelines(timelines: readonly Timeline[]): DrawnTimelines | null {
  const all = rows(timelines);
  factsOf(timelines, all);
  if (all.length === 0) return null;
  const end = all
    .flatMap(({ activities, tips }) => [activities, tips])
    .reduce((last, stretches) => stretches.reduce((latest, stretch) => Math.max(latest, stretch.end), last), 1);
  const scale = workScale(end);
  const scaled = <Drawn extends Stretch<unknown>>(row: readonly Drawn[]): readonly Drawn[] =>
    row.map((each) => ({ ...each, start: each.start / scale.divisor, end: each.end / scale.divisor }));
  const columns = mostStretches(all);
  const names = uniqueLabels(
    all.map(({ name }) => name),
    26,
  );
  const drawn = all.map(({ activities, tips, drift, cuts }, place) => {
    const isSameTip = tips.length <= columns / 3 ? sameTip : sameState;
    return {
      name: names[place],
      activities: scaled(blocks(activities, end, columns, (a, b) => a === b, inOrder(ACTIVITIES))),
      tips: scaled(blocks(tips, end, columns / 3, isSameTip, (a, b) => inOrder(STATES)(a.state, b.state))),
      drift: scaled(drift),
      cuts: cuts.length > MOST_CUTS ? [] : cuts.map((cut) => cut / scale.divisor),
    };
  });
  return {
    rows: drawn,
    activities: ACTIVITIES.filter((each) => drawn.some((row) => row.activities.some(({ what }) => what === each))),
    states: [...new Set(drawn.flatMap(({ tips }) => tips.map(({ what }) => what.state)))].toSorted(inOrder(STATES)),
    rates: rateLimits(drawn.map(({ drift }) => drift)),
    end: end / scale.divisor,
    scale,
    title: `${closedText(timelines) !== '' ? 'Time, waits for a booking left out' : 'Time since the start'} (${unitName(scale)})`,
  };
}

/** Rates lower than the greatest by more than this are drawn at the bottom. */
const WIDEST = 1e4;
const STEPS = [1, 2, 5, 10];

/** By row, rates over time; null where none drifts. */
function rateLimits(rows: readonly (readonly Stretch<number>[])[]): RateLimits | null {
  const rates = rows.flatMap((row) => row.map(({ what }) => what)).filter((rate) => rate > 0);
  if (rates.length === 0) return null;
  const greatest = rates.reduce((most, rate) => Math.max(most, rate), 0);
  const least = rates.reduce((low, rate) => Math.min(low, rate), Infinity);
  const high = rounded(greatest, (steps, share) => steps.find((step) => step >= share));
  const low = rounded(Math.max(least, greatest / WIDEST), (steps, share) => steps.findLast((step) => step <= share));
  return { low: Math.min(low, high / 2), high };
}

/** One of 1, 2 and 5 times a power of ten. */
function rounded(rate: number, pick: (steps: readonly number[], share: number) => number | undefined): number {
  const decade = Number(`1e${decadeOf(rate)}`);
  return Number(((pick(STEPS, rate / decade) ?? 1) * decade).toPrecision(1));
}

function inOrder<T>(order: readonly T[]): (a: T, b: T) => number {
  return (a, b) => order.indexOf(a) - order.indexOf(b);
}

const sameTip = (a: Mounted, b: Mounted): boolean => a.tip === b.tip && a.state === b.state;
const sameState = (a: Mounted, b: Mounted): boolean => a.state === b.state;

/** Whether a caption must say what the line at the bottom of a row is. */
export function driftText(timelines: readonly Timeline[]): string {
  return timelines.some(({ drift }) => drift !== undefined && drift.length > 0)
    ? 'The line at the bottom is the drift rate, the steady one included, on a logarithmic scale.'
    : '';
}
