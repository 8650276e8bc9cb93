import { ACTIVITIES } from '../../campaign/activities.js';
import type { DriftStretch, ShownReplication, Summary, Timeline } from '../../study/results.js';
import { calendarScale, fixed, unitName } from '../format.js';
import { listed, ordinal } from '../text.js';
import type { Chart } from './chart.js';
import { closedText, driftText, isCondensed, timelineEnd, timelineSpec } from './timeline.js';

/** The timelines of one replication, which is the same for all strategies. */
export function replicationChart(id: string, title: string, place: number): Chart {
  const of = (summary: Summary): ShownReplication | undefined => summary.shown.at(place);
  return {
    id,
    title,
    caption: (summary) => {
      const shown = of(summary);
      if (shown === undefined) return 'No replication was kept to be shown.';
      const { timelines } = shown;
      return [
        `Replication ${String(shown.replication)}, ${shown.label}, the same for all strategies; its percentiles within each stand with the numbers.`,
        'Above, what the instrument’s time went to; below, the state of the mounted tip, parted at every change of tip.',
        driftText(timelines),
        closedText(timelines),
        ...(isCondensed(timelines)
          ? ['There is more than can be drawn: columns show the shares of what they hold.']
          : []),
      ]
        .filter((sentence) => sentence !== '')
        .join(' ');
    },
    alt: (summary) => {
      const shown = of(summary);
      if (shown === undefined) return 'No picture.';
      const scale = calendarScale(timelineEnd(shown.timelines));
      const ends = shown.timelines.map(
        (timeline) =>
          `${timeline.strategy} ends after ${fixed(timelineEnd([timeline]) / scale.divisor, 1)} ${unitName(scale)} with ${String(tipsOf(timeline))} tips mounted`,
      );
      return `One bar a strategy along the time, coloured by activity. ${listed(ends)}.`;
    },
    spec: (summary) => {
      const shown = of(summary);
      return shown === undefined ? null : timelineSpec(shown.timelines);
    },
    table: (summary) => {
      const timelines = of(summary)?.timelines ?? [];
      return {
        columns: [
          { label: 'Hours by activity' },
          ...timelines.map((timeline) => ({ label: timeline.strategy, numeric: true })),
        ],
        rows: [
          ...(['time', 'yield', 'tips'] as const).map((measure) => [
            `percentile of its ${measure}`,
            ...timelines.map(({ strategy }) => {
              const found = of(summary)?.percentiles.find((each) => each.strategy === strategy);
              return found === undefined ? '' : ordinal(found[measure]);
            }),
          ]),
          ...ACTIVITIES.map((activity) => [
            activity,
            ...timelines.map((timeline) =>
              fixed(
                timeline.segments
                  .filter((segment) => segment.activity === activity)
                  .reduce((sum, segment) => sum + segment.end - segment.start, 0) / 3600,
                2,
              ),
            ),
          ]),
          ...(timelines.some(({ drift }) => drift !== undefined)
            ? [['greatest drift rate (nm/s)', ...timelines.map(({ drift = [] }) => greatestRate(drift))]]
            : []),
          ['tips mounted (number)', ...timelines.map((timeline) => String(tipsOf(timeline)))],
        ],
      };
    },
  };
}

function greatestRate(drift: readonly DriftStretch[]): string {
  return drift.length === 0
    ? ''
    : fixed(
        drift.reduce((most, { rate }) => Math.max(most, rate), 0),
        3,
      );
}

function tipsOf(timeline: Timeline): number {
  return new Set(timeline.tips.map((stretch) => `${String(stretch.instrument)}/${stretch.tip}`)).size;
}
