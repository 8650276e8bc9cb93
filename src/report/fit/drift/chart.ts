import type { DriftFitSummary, DriftKindFit } from '../../../study/fit/drift/results.js';
import { SCHEMA, type Chart } from '../../charts/chart.js';
import { chartConfig } from '../../charts/config.js';
import { workScale } from '../../format.js';
import { NEUTRALS, STRATEGY_TONES } from '../../palette.js';
import { capital, listed } from '../../text.js';
import { evenly, panelSize } from '../charts/panels.js';
import { rateText, timeText } from './words.js';

/** Readings that are drawn of a kind; more would only hide each other. */
const MOST_DRAWN = 1500;

function panel(fit: DriftKindFit, { kinds, settling }: DriftFitSummary) {
  const last = Math.max(...fit.rates.map(({ time }) => time));
  const { divisor, unit } = workScale(last);
  const x = {
    field: 'time',
    type: 'quantitative' as const,
    title: `Since the disturbance ended (${unit})`,
    scale: { domain: [0, last / divisor], nice: false },
    axis: { grid: false, tickCount: 8 },
  };
  const y = { field: 'rate', type: 'quantitative' as const, title: 'Drift rate (nm/s)', axis: { tickCount: 6 } };
  const curve = fit.curve.map(({ time, value, low, high }) => ({ time: time / divisor, rate: value, low, high }));
  const read = evenly(fit.rates, MOST_DRAWN).map((each) => ({ ...each, time: each.time / divisor }));
  return {
    title: `After ${fit.kind}`,
    ...panelSize(kinds),
    layer: [
      {
        data: { values: curve },
        mark: { type: 'area' as const, color: NEUTRALS.faint.light, clip: true },
        encoding: { x, y: { ...y, field: 'low' }, y2: { field: 'high' } },
      },
      {
        data: { values: settling <= last ? [{ time: settling / divisor }] : [] },
        mark: { type: 'rule' as const, color: NEUTRALS.soft.light, strokeDash: [4, 4] },
        encoding: { x },
      },
      {
        data: { values: read },
        mark: { type: 'line' as const, color: NEUTRALS.soft.light, strokeWidth: 0.6, opacity: 0.6 },
        encoding: { x, y, detail: { field: 'disturbance', type: 'nominal' as const } },
      },
      {
        data: { values: read },
        mark: { type: 'point' as const, filled: true, size: 18, color: NEUTRALS.ink.light, opacity: 0.8 },
        encoding: { x, y },
      },
      {
        data: { values: curve },
        mark: { type: 'line' as const, color: STRATEGY_TONES[0].light, strokeWidth: 2.5, clip: true },
        encoding: { x, y },
      },
    ],
  };
}

export const driftChart: Chart<DriftFitSummary> = {
  id: 'drift',
  title: 'How does drift settle?',
  caption: ({ form, kinds }) =>
    `${form === 'rate' ? 'A point for each reading' : 'A point for each rate from one displacement to the next, at the middle of the time between'}, those of one disturbance joined; the curve is the fitted rate after a disturbance of the median, the band holds 95 % of disturbances without errors of readings, and the dashed line is the settling time.` +
    (kinds.some(({ rates }) => rates.length > MOST_DRAWN)
      ? ` Of more readings than ${String(MOST_DRAWN)} an even part is drawn.`
      : ''),
  alt: ({ kinds }) =>
    `Drift rate over the time since the disturbance ended: ${listed(
      kinds.map(({ kind, curve }) => {
        const [first, end] = [curve.at(0), curve.at(-1)];
        return first === undefined || end === undefined
          ? `after ${kind} nothing could be fitted`
          : `after ${kind} the fitted rate falls from ${rateText(first.value)} to ${rateText(end.value)} in ${timeText(end.time)}`;
      }),
    )}.`,
  spec: (summary) => {
    const kinds = summary.kinds.filter(({ rates }) => rates.length > 0);
    if (kinds.length === 0) return null;
    return {
      $schema: SCHEMA,
      config: { ...chartConfig(), concat: { spacing: 26 } },
      columns: 2,
      concat: kinds.map((fit) => panel(fit, { ...summary, kinds })),
    };
  },
  table: ({ kinds }) => ({
    columns: [
      { label: 'Disturbance' },
      { label: 'Since it ended', numeric: true },
      { label: 'Fitted rate', numeric: true },
      { label: '95 % of disturbances', numeric: true },
    ],
    rows: kinds.flatMap(({ kind, curve }) =>
      evenly(curve, 12).map(({ time, value, low, high }) => [
        capital(kind),
        timeText(time),
        rateText(value),
        `${rateText(low)} to ${rateText(high)}`,
      ]),
    ),
  }),
};
