import type { TopLevelSpec } from 'vega-lite';
import { ACTIVITIES, type Activity } from '../../campaign/activities.js';
import type { Timeline, TipStretch } from '../../study/results.js';
import { unitName, workScale } from '../format.js';
import { ACTIVITY_TONES, NEUTRALS, TIP_STATE_TONES } from '../palette.js';
import { uniqueLabels } from '../text.js';
import { chartConfig } from './config.js';
import { SCHEMA, timeTicks, WIDTH } from './chart.js';
import { rateLimits, driftLayers } from './drift-layers.js';
import { nameRoom } from './row-names.js';
import { blocks, joined, withoutClosed, type Block, type Stretch } from './strips.js';

type State = TipStretch['state'];
interface Mounted {
  readonly tip: string;
  readonly state: State;
}

const STATES: readonly State[] = ['sound', 'chipped', 'blunt', 'fouled', 'worn-out', 'coating gone', 'broken'];
const CLOSED: Activity = 'waiting for a booking';

/** Marks of activities in one picture at most. */
const MOST_MARKS = 3000;
/** Height of a row, and its parts from its top: the activities, the tip below them, and the drift rate below that. */
interface Layout {
  readonly height: number;
  readonly upper: readonly [number, number];
  readonly lower: readonly [number, number];
  readonly drift: readonly [number, number];
}
const STILL: Layout = { height: 54, upper: [0.14, 0.64], lower: [0.7, 0.86], drift: [1, 1] };
const DRIFTING: Layout = { height: 90, upper: [0.08, 0.38], lower: [0.42, 0.52], drift: [0.58, 0.92] };
/** Room for the rates at the right of a row. */
const RATE_ROOM = 52;

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
  return mostCuts > MOST_CUTS ? `${text}.` : `${text}; small uprights mark where.`;
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

/** One row for each strategy and instrument: what its time went to, and the state of its tip in a strip below. */
export function timelineSpec(timelines: readonly Timeline[]): TopLevelSpec | null {
  const all = rows(timelines);
  factsOf(timelines, all);
  if (all.length === 0) return null;
  const end = all
    .flatMap(({ activities, tips }) => [activities, tips])
    .reduce((last, stretches) => stretches.reduce((latest, stretch) => Math.max(latest, stretch.end), last), 1);
  const scale = workScale(end);
  const rates = rateLimits(all.map(({ drift }) => drift));
  const layout = rates === null ? STILL : DRIFTING;
  const labels = uniqueLabels(
    all.map((row) => row.name),
    26,
  );
  const columns = mostStretches(all);
  const placed = <T>(block: Block<T>, row: number, [top, bottom]: readonly [number, number]) => ({
    start: block.start / scale.divisor,
    end: block.end / scale.divisor,
    top: row + bottom - block.from * (bottom - top),
    bottom: row + bottom - block.to * (bottom - top),
  });
  const activities = all.flatMap((row, place) =>
    blocks(
      row.activities,
      end,
      columns,
      (a, b) => a === b,
      (a, b) => ACTIVITIES.indexOf(a) - ACTIVITIES.indexOf(b),
    ).map((block) => ({ ...placed(block, place, layout.upper), activity: block.what })),
  );
  const tips = all.flatMap((row, place) => {
    const few = row.tips.length <= columns / 3;
    const alike = few
      ? (a: Mounted, b: Mounted): boolean => a.tip === b.tip && a.state === b.state
      : (a: Mounted, b: Mounted): boolean => a.state === b.state;
    return blocks(row.tips, end, columns / 3, alike, (a, b) => STATES.indexOf(a.state) - STATES.indexOf(b.state)).map(
      (block) => ({ ...placed(block, place, layout.lower), state: block.what.state }),
    );
  });
  const cuts = all.flatMap((row, place) =>
    row.cuts.length > MOST_CUTS
      ? []
      : row.cuts.map((cut) => ({ start: cut / scale.divisor, top: place + 0.02, bottom: place + 0.11 })),
  );
  const used = ACTIVITIES.filter((activity) => activities.some((each) => each.activity === activity));
  const states = STATES.filter((state) => tips.some((each) => each.state === state));
  const x = {
    field: 'start',
    type: 'quantitative' as const,
    title: `${closedText(timelines) !== '' ? 'Time, waits for a booking left out' : 'Time since the start'} (${unitName(scale)})`,
    scale: { domain: [0, end / scale.divisor], nice: false },
    axis: { grid: false, values: timeTicks(end / scale.divisor, scale), format: '~f' },
  };
  const y = {
    field: 'top',
    type: 'quantitative' as const,
    scale: { domain: [all.length, 0], nice: false, zero: false },
    axis: null,
  };
  const legend = {
    orient: 'bottom' as const,
    symbolType: 'square',
    symbolStrokeWidth: 0,
    titleOrient: 'left' as const,
  };
  return {
    $schema: SCHEMA,
    config: chartConfig(),
    width: WIDTH - nameRoom(labels) - (rates === null ? 18 : RATE_ROOM),
    height: layout.height * all.length,
    resolve: { scale: { color: 'independent' } },
    layer: [
      {
        data: { values: activities },
        mark: { type: 'rect' },
        encoding: {
          x,
          x2: { field: 'end' },
          y,
          y2: { field: 'bottom' },
          color: {
            field: 'activity',
            type: 'nominal',
            scale: { domain: [...used], range: used.map((activity) => ACTIVITY_TONES[activity].light) },
            legend: { ...legend, title: null, columns: 3 },
          },
        },
      },
      {
        data: { values: tips },
        mark: { type: 'rect', stroke: NEUTRALS.paper.light, strokeWidth: tips.length > 400 ? 0 : 0.7 },
        encoding: {
          x,
          x2: { field: 'end' },
          y,
          y2: { field: 'bottom' },
          color: {
            field: 'state',
            type: 'nominal',
            scale: { domain: [...states], range: states.map((state) => TIP_STATE_TONES[state].light) },
            legend: { ...legend, title: 'tip, below:', columns: 5 },
          },
        },
      },
      ...(rates === null
        ? []
        : driftLayers(
            all.map(({ drift }) => drift),
            rates,
            { x, y, divisor: scale.divisor, end, within: layout.drift },
          )),
      {
        data: { values: cuts },
        mark: { type: 'rule', color: NEUTRALS.soft.light, strokeWidth: 1 },
        encoding: { x, y, y2: { field: 'bottom' } },
      },
      {
        data: { values: labels.map((name, place) => ({ name, top: place + (layout.upper[0] + layout.upper[1]) / 2 })) },
        mark: { type: 'text', align: 'right', baseline: 'middle', fontSize: 12 },
        encoding: { x: { value: -12 }, y, text: { field: 'name' } },
      },
    ],
  };
}

/** Whether a caption must say what the line at the bottom of a row is. */
export function driftText(timelines: readonly Timeline[]): string {
  return timelines.some(({ drift }) => drift !== undefined && drift.length > 0)
    ? 'The line at the bottom is the drift rate, the steady one included, on a logarithmic scale.'
    : '';
}
