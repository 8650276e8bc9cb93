import type { TopLevelSpec } from 'vega-lite';
import { ACTIVITIES, type Activity } from '../../campaign/ledger.js';
import type { Timeline, TipStretch } from '../../study/results.js';
import { calendarScale, unitName } from '../format.js';
import { ACTIVITY_TONES, NEUTRALS, TIP_STATE_TONES } from '../palette.js';
import { uniqueLabels } from '../text.js';
import { chartConfig } from './config.js';
import { SCHEMA, WIDTH } from './chart.js';
import { drawable, type Stretch } from './strips.js';

type State = TipStretch['state'];
const STATES: readonly State[] = ['sound', 'fouled', 'worn-out', 'coating gone', 'broken'];

/** Marks of activities in one picture at most. */
const MOST_MARKS = 3200;

interface Row {
  readonly name: string;
  readonly activities: readonly Stretch<Activity>[];
  readonly tips: readonly Stretch<{ tip: string; state: State }>[];
}

export function timelineEnd(timelines: readonly Timeline[]): number {
  const ends = timelines.flatMap((timeline) => timeline.segments.map((segment) => segment.end));
  return ends.reduce((last, end) => Math.max(last, end), 1);
}

function rows(timelines: readonly Timeline[]): readonly Row[] {
  const several = timelines.some((timeline) => timeline.segments.some((segment) => segment.instrument > 0));
  return timelines.flatMap((timeline) => {
    const instruments = [...new Set(timeline.segments.map((segment) => segment.instrument))].sort((a, b) => a - b);
    return instruments.map((instrument) => ({
      name: several ? `${timeline.strategy}, no. ${String(instrument + 1)}` : timeline.strategy,
      activities: timeline.segments
        .filter((segment) => segment.instrument === instrument)
        .map(({ start, end, activity }) => ({ start, end, what: activity })),
      tips: timeline.tips
        .filter((stretch) => stretch.instrument === instrument)
        .map(({ start, end, tip, state }) => ({ start, end, what: { tip, state } })),
    }));
  });
}

/** One row for each strategy and instrument: what its time went to, and the state of its tip in a strip below. */
export function timelineSpec(timelines: readonly Timeline[]): TopLevelSpec | null {
  const all = rows(timelines);
  if (all.length === 0) return null;
  const end = timelineEnd(timelines);
  const scale = calendarScale(end);
  const labels = [
    ...uniqueLabels(
      all.map((row) => row.name),
      26,
    ),
  ];
  const columns = Math.max(90, Math.min(700, Math.floor(MOST_MARKS / all.length)));
  const activities = all.flatMap((row, place) =>
    drawable(row.activities, end, columns, (a, b) => a === b).map(({ start, end: stop, what }) => ({
      row: labels[place],
      start: start / scale.divisor,
      end: stop / scale.divisor,
      activity: what,
    })),
  );
  const tips = all.flatMap((row, place) =>
    drawable(row.tips, end, Math.floor(columns / 3), (a, b) => a.tip === b.tip && a.state === b.state).map(
      ({ start, end: stop, what }) => ({
        row: labels[place],
        start: start / scale.divisor,
        end: stop / scale.divisor,
        state: what.state,
      }),
    ),
  );
  const used = ACTIVITIES.filter((activity) => activities.some((each) => each.activity === activity));
  const states = STATES.filter((state) => tips.some((each) => each.state === state));
  const x = {
    field: 'start',
    type: 'quantitative' as const,
    title: `Time since the start (${unitName(scale)})`,
    scale: { domain: [0, end / scale.divisor], nice: false },
  };
  const y = {
    field: 'row',
    type: 'nominal' as const,
    sort: labels,
    title: null,
    axis: { domain: false, ticks: false, labelColor: NEUTRALS.ink.light },
  };
  const legend = { orient: 'bottom' as const, symbolType: 'square', symbolStrokeWidth: 0, titleOrient: 'left' as const };
  return {
    $schema: SCHEMA,
    config: chartConfig(),
    width: WIDTH,
    height: 52 * all.length,
    autosize: { type: 'fit-x', contains: 'padding' },
    resolve: { scale: { color: 'independent' } },
    layer: [
      {
        data: { values: activities },
        mark: { type: 'bar', height: 24, yOffset: -7 },
        encoding: {
          x,
          x2: { field: 'end' },
          y,
          color: {
            field: 'activity',
            type: 'nominal',
            scale: { domain: [...used], range: used.map((activity) => ACTIVITY_TONES[activity].light) },
            legend: { ...legend, title: null, columns: 4 },
          },
        },
      },
      {
        data: { values: tips },
        mark: { type: 'bar', height: 8, yOffset: 12, stroke: NEUTRALS.paper.light, strokeWidth: 0.6 },
        encoding: {
          x,
          x2: { field: 'end' },
          y,
          color: {
            field: 'state',
            type: 'nominal',
            scale: { domain: [...states], range: states.map((state) => TIP_STATE_TONES[state].light) },
            legend: { ...legend, title: 'tip', columns: 5 },
          },
        },
      },
    ],
  };
}
