import { fixed, numberText, type Scale, unitName, workScale } from '../../../wording/numbers.js';
import { listed } from '../../../wording/phrases.js';
import { ACTIVITIES, type Activity } from '../../../campaign/activities.js';
import type { StrategySummary, Summary } from '../../../analysis/results.js';
import { ACTIVITY_TONES } from '../../../report/palette.js';
import { bars } from '../../../report/charts/bars.js';
import { type Chart, strategyLabels } from '../../../report/charts/chart.js';

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
  drawing: (summary) => {
    const scale = scaleOf(summary);
    const labels = strategyLabels(summary);
    const used = SHOWN.filter((activity) => summary.strategies.some((strategy) => strategy.split[activity] > 0));
    return bars({
      looks: used.map((name) => ({ name, tone: ACTIVITY_TONES[name] })),
      x: { title: `Mean time (${unitName(scale)})`, time: scale },
      panels: [
        {
          rows: summary.strategies.map((strategy, place) => ({
            name: labels[place],
            parts: used.map((look) => ({ look, size: strategy.split[look] / scale.divisor })),
            total:
              numberText(spent(strategy, summary), scale) +
              (strategy.split[BETWEEN] > 0 ? ` + ${numberText(strategy.split[BETWEEN], scale)}` : ''),
          })),
        },
      ],
    });
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
