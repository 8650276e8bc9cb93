import type { MeasureSummary, StrategySummary, Summary } from '../../study/results.js';
import { calendarScale, estimateLine, fixed, numberText, SHARE, unitName } from '../format.js';
import { NEUTRALS } from '../palette.js';
import { chartConfig } from './config.js';
import { SCHEMA, strategyLabels, strategyScales, strokeLegend, timeTicks, WIDTH, type Chart } from './chart.js';
import { listed, shortened } from '../text.js';

const HEIGHT = 300;

/** What is told of strategies about their end. */
type Finishing = Pick<Summary, 'strategies' | 'allocation' | 'confidence'>;

interface Step {
  readonly strategy: string;
  readonly time: number;
  readonly chance: number;
  readonly low: number;
  readonly high: number;
}

/** Seconds up to which the curves are drawn: a little past the last step, session and end of the granted time. */
function horizon(summary: Finishing): number {
  const ends = summary.strategies.flatMap((strategy) => strategy.finishing.map((point) => point.time));
  const means = summary.strategies.map((strategy) => strategy.measures.totalTime.value);
  return 1.04 * Math.max(...(ends.length === 0 ? means : ends), summary.allocation?.end ?? 0, 1);
}

function steps(summary: Finishing, divisor: number): Step[] {
  const labels = strategyLabels(summary);
  const end = horizon(summary);
  return summary.strategies.flatMap((strategy, place) => {
    const points = strategy.finishing;
    const last = points.at(-1) ?? { value: 0, low: 0, high: 0 };
    return [{ time: 0, value: 0, low: 0, high: 0 }, ...points, { ...last, time: end }].map((point) => ({
      strategy: labels[place],
      time: point.time / divisor,
      chance: point.value,
      low: point.low,
      high: point.high,
    }));
  });
}

/** Ends of booked sessions that lie within the picture; numbers are thinned out where they would touch. */
function sessions(summary: Finishing, divisor: number): { time: number; label: string }[] {
  const ends = new Map<number, number>();
  for (const strategy of summary.strategies) {
    for (const point of strategy.finishedBySession)
      if (point.time <= horizon(summary)) ends.set(point.session, point.time);
  }
  const all = [...ends].sort(([a], [b]) => a - b);
  const pixels = (WIDTH * Math.max(0, ...ends.values())) / horizon(summary);
  const every = [1, 2, 5, 10, 20, 50, 100].find((each) => (pixels / Math.max(1, all.length)) * each >= 24) ?? 200;
  const granted = summary.allocation?.end;
  return all.map(([session, time]) => ({
    time: time / divisor,
    label: session % every === 0 && time !== granted ? String(session) : '',
  }));
}

/** Seconds at which nine campaigns in ten have their last review, where that comes after the end of the work. */
function lastReview({ measures }: StrategySummary): readonly number[] {
  const p90 = ({ quantiles }: MeasureSummary) => quantiles.filter(({ probability }) => probability === 0.9);
  const [[reviewed], [ended]] = [p90(measures.confirmedAt), p90(measures.totalTime)];
  return reviewed.value > ended.value ? [reviewed.value] : [];
}

/** The chance to be finished by time since something, such as `since the start`. */
export function finishChart<Result extends Finishing>(since: string): Chart<Result> {
  return {
    id: 'finish',
    title: 'When will it be finished?',
    caption: (summary) => {
      const percent = fixed(100 * summary.confidence.level, 0);
      const parts = [
        `Chance that the experiment is finished, by time ${since}; bands are ${percent} % intervals, point by point. Overrun, and late reviews that flag nothing, do not hold it up.`,
      ];
      if (sessions(summary, 1).length > 0) {
        parts.push('Ticks along the bottom are the ends of booked sessions, by number.');
      }
      if (summary.allocation !== null) parts.push('The dashed upright is the end of the granted time.');
      return parts.join(' ');
    },
    alt: (summary) =>
      `Rising steps, one line a strategy. ${listed(
        summary.strategies.map((strategy) =>
          strategy.withinAllocation === null
            ? `${strategy.name} is ever finished with a chance of ${numberText(strategy.finishes.value, SHARE)}`
            : `${strategy.name} is finished within the granted time with a chance of ${numberText(strategy.withinAllocation.value, SHARE)}`,
        ),
      )}.`,
    spec: (summary) => {
      const scale = calendarScale(horizon(summary));
      const { color, dash } = strategyScales(summary);
      const end = horizon(summary) / scale.divisor;
      const granted = summary.allocation;
      const marks = sessions(summary, scale.divisor);
      const x = {
        field: 'time',
        type: 'quantitative' as const,
        title: `Time ${since} (${unitName(scale)})`,
        scale: { domain: [0, end], nice: false },
        axis: { grid: false, values: timeTicks(end, scale), format: '~f' },
      };
      const strategy = { field: 'strategy', type: 'nominal' as const };
      const legend = { ...strokeLegend(color.domain), offset: granted === null ? 10 : 24 };
      return {
        $schema: SCHEMA,
        config: chartConfig(),
        width: WIDTH,
        height: HEIGHT,
        autosize: { type: 'fit-x', contains: 'padding' },
        layer: [
          {
            data: { values: steps(summary, scale.divisor) },
            layer: [
              {
                mark: { type: 'area', interpolate: 'step-after', opacity: 0.16 },
                encoding: {
                  x,
                  y: { field: 'low', type: 'quantitative' },
                  y2: { field: 'high' },
                  color: { ...strategy, scale: color, legend },
                },
              },
              {
                mark: { type: 'line', interpolate: 'step-after', strokeWidth: 2.2 },
                encoding: {
                  x,
                  y: {
                    field: 'chance',
                    type: 'quantitative',
                    title: 'Chance to be finished',
                    scale: { domain: [0, 1] },
                    axis: { format: '.0%', tickCount: 5 },
                  },
                  color: { ...strategy, scale: color, legend },
                  strokeDash: { ...strategy, scale: dash, legend },
                },
              },
            ],
          },
          {
            data: { values: marks },
            mark: { type: 'rule', color: NEUTRALS.soft.light, strokeWidth: 1 },
            encoding: { x, y: { value: HEIGHT }, y2: { value: HEIGHT - 7 } },
          },
          {
            data: { values: marks },
            mark: { type: 'text', color: NEUTRALS.soft.light, fontSize: 10.5, baseline: 'bottom' },
            encoding: { x, y: { value: HEIGHT - 9 }, text: { field: 'label' } },
          },
          {
            data: { values: granted === null ? [] : [{ time: granted.end / scale.divisor }] },
            mark: { type: 'rule', color: NEUTRALS.ink.light, strokeDash: [4, 3], strokeWidth: 1.2 },
            encoding: { x },
          },
          {
            data: {
              values:
                granted === null
                  ? []
                  : [{ time: granted.end / scale.divisor, label: `granted: ${shortened(granted.text, 40)}` }],
            },
            mark: {
              type: 'text',
              baseline: 'bottom',
              dy: -4,
              align: granted !== null && granted.end / scale.divisor > end / 2 ? 'right' : 'left',
            },
            encoding: { x, y: { value: 0 }, text: { field: 'label' } },
          },
        ],
      };
    },
    table: (summary) => {
      const scale = calendarScale(horizon(summary));
      return {
        columns: [
          { label: 'Strategy' },
          { label: 'By' },
          { label: `Time (${scale.unit})`, numeric: true },
          { label: 'Chance to be finished', numeric: true },
        ],
        rows: summary.strategies.flatMap((strategy) => [
          ...(strategy.finishedBySession.length > 0
            ? strategy.finishedBySession.map((point) => [
                strategy.name,
                `end of session ${String(point.session)}`,
                numberText(point.time / scale.divisor),
                estimateLine(point, SHARE),
              ])
            : thinned(strategy.finishing, 12).map((point) => [
                strategy.name,
                'this time',
                numberText(point.time / scale.divisor),
                estimateLine(point, SHARE),
              ])),
          [strategy.name, 'ever', '', estimateLine(strategy.finishes, SHARE)],
          ...lastReview(strategy).map((time) => [
            strategy.name,
            'last late review done (P90)',
            numberText(time / scale.divisor),
            '',
          ]),
        ]),
      };
    },
  };
}

export const finish: Chart = finishChart('since the start');

/** At most `most` items, evenly chosen, the last one always among them. */
function thinned<T>(items: readonly T[], most: number): readonly T[] {
  const every = Math.ceil(items.length / most);
  return items.filter((_, place) => (items.length - 1 - place) % Math.max(1, every) === 0);
}
