import { ACTIVITIES } from '../../../campaign/activities.js';
import type { DriftStretch, ShownReplication, Summary, Timeline } from '../../../analysis/results.js';
import { calendarScale, fixed, unitName } from '../../../wording/numbers.js';
import { listed, ordinal } from '../../../wording/phrases.js';
import type { Chart } from '../../../report/charts/chart.js';
import { timeline } from '../../../report/charts/timeline.js';
import { closedText, driftText, isCondensed, timelineEnd } from '../../../report/charts/timeline-rows.js';

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
        (each) =>
          `${each.strategy} ends after ${fixed(timelineEnd([each]) / scale.divisor, 1)} ${unitName(scale)} with ${String(tipsOf(each))} tips mounted`,
      );
      return `One bar a strategy along the time, coloured by activity. ${listed(ends)}.`;
    },
    drawing: (summary) => {
      const shown = of(summary);
      return shown === undefined ? null : timeline(shown.timelines);
    },
    table: (summary) => {
      const timelines = of(summary)?.timelines ?? [];
      return {
        columns: [
          { label: 'Hours by activity' },
          ...timelines.map((each) => ({ label: each.strategy, numeric: true })),
        ],
        rows: [
          ...(['time', 'yield', 'tips'] as const).map((measure) => [
            `percentile of its ${measure}`,
            ...timelines.map(({ strategy }) => {
              const found = of(summary)?.percentiles.find((found) => found.strategy === strategy);
              return found === undefined ? '' : ordinal(found[measure]);
            }),
          ]),
          ...ACTIVITIES.map((activity) => [
            activity,
            ...timelines.map((each) =>
              fixed(
                each.segments
                  .filter((segment) => segment.activity === activity)
                  .reduce((sum, segment) => sum + segment.end - segment.start, 0) / 3600,
                2,
              ),
            ),
          ]),
          ...(timelines.some(({ drift }) => drift !== undefined)
            ? [['greatest drift rate (nm/s)', ...timelines.map(({ drift = [] }) => greatestRate(drift))]]
            : []),
          ['tips mounted (number)', ...timelines.map((each) => String(tipsOf(each)))],
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

function tipsOf({ tips }: Timeline): number {
  return new Set(tips.map((stretch) => `${String(stretch.instrument)}/${stretch.tip}`)).size;
}
