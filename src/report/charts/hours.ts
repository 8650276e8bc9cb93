import { ACTIVITIES, type Activity } from '../../campaign/activities.js';
import type { StrategySummary, Summary } from '../../study/results.js';
import { fixed, numberText, unitName, workScale, type Scale } from '../format.js';
import { ACTIVITY_TONES, NEUTRALS } from '../palette.js';
import { chartConfig } from './config.js';
import { SCHEMA, strategyLabels, timeTicks, WIDTH, type Chart } from './chart.js';
import { listed } from '../text.js';

const BETWEEN: Activity = 'waiting for a booking';
const SHOWN = ACTIVITIES.filter((activity) => activity !== BETWEEN);

function busy(strategy: StrategySummary): number {
  return SHOWN.reduce((sum, activity) => sum + strategy.split[activity], 0);
}

/** Of one instrument its instrument time, so that one number stands everywhere; what runs past a booking is in the bars alone. */
function spent(strategy: StrategySummary, { scenario }: Summary): number {
  return scenario.instruments > 1 ? busy(strategy) : strategy.measures.instrumentTime.value;
}

function scaleOf(summary: Summary): Scale {
  return workScale(Math.max(...summary.strategies.map(busy)));
}

function hasBookings(summary: Summary): boolean {
  return summary.strategies.some((strategy) => strategy.split[BETWEEN] > 0);
}

export const hours: Chart = {
  id: 'hours',
  title: 'Where do the hours go?',
  caption: (summary) =>
    `Mean time by activity${summary.scenario.instruments > 1 ? ', all instruments together' : ''}, without preparation at the bench before the start.` +
    (hasBookings(summary)
      ? ' Nights and other time between bookings are left out of the bars; their mean stands behind the plus sign.'
      : '') +
    (summary.scenario.instruments === 1 && summary.strategies.some(({ measures }) => measures.overrun.value > 0)
      ? ' What runs past the end of a booking is in the bars, but not in the instrument time beside them.'
      : ''),
  alt: (summary) =>
    `Stacked bars, one a strategy. ${listed(
      summary.strategies.map(
        (strategy) =>
          `${strategy.name} takes ${numberText(spent(strategy, summary), scaleOf(summary))}, of which scanning that is kept ${numberText(strategy.split['scanning kept'], scaleOf(summary))}`,
      ),
    )}.`,
  spec: (summary) => {
    const scale = scaleOf(summary);
    const labels = [...strategyLabels(summary)];
    const used = SHOWN.filter((activity) => summary.strategies.some((strategy) => strategy.split[activity] > 0));
    const longest = Math.max(...summary.strategies.map(busy)) / scale.divisor;
    const parts = summary.strategies.flatMap((strategy, place) => {
      let from = 0;
      return used.map((activity) => {
        const start = from;
        from += strategy.split[activity] / scale.divisor;
        return { strategy: labels[place], activity, from: start, to: from };
      });
    });
    const totals = summary.strategies.map((strategy, place) => ({
      strategy: labels[place],
      at: busy(strategy) / scale.divisor,
      label:
        numberText(spent(strategy, summary), scale) +
        (strategy.split[BETWEEN] > 0 ? ` + ${numberText(strategy.split[BETWEEN], scale)}` : ''),
    }));
    const y = {
      field: 'strategy',
      type: 'nominal' as const,
      title: null,
      sort: labels,
      axis: { domain: false, ticks: false, labelColor: NEUTRALS.ink.light },
    };
    const domain = { domain: [0, longest * (hasBookings(summary) ? 1.22 : 1.1) || 1], nice: false };
    return {
      $schema: SCHEMA,
      config: chartConfig(),
      width: WIDTH,
      height: 46 * labels.length,
      autosize: { type: 'fit-x', contains: 'padding' },
      layer: [
        {
          data: { values: parts },
          mark: { type: 'bar', height: 26, stroke: NEUTRALS.paper.light, strokeWidth: 1 },
          encoding: {
            y,
            x: {
              field: 'from',
              type: 'quantitative',
              title: `Mean time (${unitName(scale)})`,
              scale: domain,
              axis: { values: timeTicks(domain.domain[1], scale), format: '~f' },
            },
            x2: { field: 'to' },
            color: {
              field: 'activity',
              type: 'nominal',
              sort: [...used],
              scale: { domain: [...used], range: used.map((activity) => ACTIVITY_TONES[activity].light) },
              legend: {
                title: null,
                orient: 'bottom',
                columns: 3,
                symbolType: 'square',
                symbolStrokeWidth: 0,
                offset: 14,
              },
            },
          },
        },
        {
          data: { values: totals },
          mark: { type: 'text', align: 'left', dx: 7 },
          encoding: { y, x: { field: 'at', type: 'quantitative', scale: domain }, text: { field: 'label' } },
        },
      ],
    };
  },
  table: (summary) => {
    const scale = scaleOf(summary);
    const decimals = scale.unit === 'h' ? 2 : 1;
    const row = (name: string, of: (strategy: StrategySummary) => number): readonly string[] => [
      name,
      ...summary.strategies.map((strategy) => fixed(of(strategy) / scale.divisor, decimals)),
    ];
    return {
      columns: [
        { label: `Activity, mean ${unitName(scale)}` },
        ...summary.strategies.map((strategy) => ({ label: strategy.name, numeric: true })),
      ],
      rows: [
        ...ACTIVITIES.map((activity) => row(activity, (strategy) => strategy.split[activity])),
        row('all', (strategy) => busy(strategy) + strategy.split[BETWEEN]),
      ],
    };
  },
};
