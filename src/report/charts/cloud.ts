import type { QuantileEstimate, StrategySummary, Summary } from '../../study/results.js';
import { estimateLine, numberText, SHARE, unitName } from '../format.js';
import { NEUTRALS } from '../palette.js';
import { chartConfig } from './config.js';
import {
  legendColumns,
  padded,
  SCHEMA,
  strategyLabels,
  strategyScales,
  timeScale,
  WIDTH,
  type Chart,
} from './chart.js';
import { listed } from '../text.js';

/** Points in the picture over all strategies; more would only blacken the page. */
const MOST = 1600;

function quantile(quantiles: readonly QuantileEstimate[], probability: number): number {
  return quantiles.find((each) => Math.abs(each.probability - probability) < 1e-9)?.value ?? Number.NaN;
}

function middle(
  strategy: StrategySummary,
  summary: Summary,
): Record<'t10' | 't50' | 't90' | 'y10' | 'y50' | 'y90', number> {
  const time = strategy.measures.instrumentTime.quantiles;
  const gain = strategy.measures.yield.quantiles;
  const { divisor } = timeScale(summary);
  return {
    t10: quantile(time, 0.1) / divisor,
    t50: quantile(time, 0.5) / divisor,
    t90: quantile(time, 0.9) / divisor,
    y10: quantile(gain, 0.1),
    y50: quantile(gain, 0.5),
    y90: quantile(gain, 0.9),
  };
}

export const cloud: Chart = {
  id: 'cloud',
  title: 'Time against yield',
  caption: () =>
    'Each point is one replication. Crosses join the 10th and the 90th percentile in each direction and meet at the medians. Up and to the left is better.',
  alt: (summary) =>
    `A cloud of points for each strategy. ${listed(
      summary.strategies.map((strategy) => {
        const at = middle(strategy, summary);
        return `${strategy.name} has its median at ${numberText(at.t50)} ${unitName(timeScale(summary))} and a yield of ${numberText(at.y50, SHARE)}`;
      }),
    )}.`,
  spec: (summary) => {
    const scale = timeScale(summary);
    const labels = strategyLabels(summary);
    const { color, shape } = strategyScales(summary);
    const every = Math.max(1, Math.ceil(summary.strategies.reduce((sum, each) => sum + each.cloud.length, 0) / MOST));
    const points = summary.strategies.flatMap((strategy, place) =>
      strategy.cloud
        .filter((_, number) => number % every === 0)
        .map((point) => ({ strategy: labels[place], time: point.time / scale.divisor, yield: point.yield })),
    );
    const crosses = summary.strategies.map((strategy, place) => ({
      strategy: labels[place],
      ...middle(strategy, summary),
    }));
    const times = [...points.map((point) => point.time), ...crosses.flatMap((cross) => [cross.t10, cross.t90])];
    const gains = [...points.map((point) => point.yield), ...crosses.flatMap((cross) => [cross.y10, cross.y90])];
    const [left, right] = padded(times, 0.06, 0.08 * Math.max(...times));
    const [bottom, top] = padded(gains, 0.06, 0.04);
    const xScale = { domain: [Math.max(0, left), right], nice: false, zero: false };
    const yScale = { domain: [Math.max(0, bottom), Math.min(1, top)], nice: false, zero: false };
    const x = (field: string) => ({
      field,
      type: 'quantitative' as const,
      scale: xScale,
      title: `Instrument time (${unitName(scale)})`,
      axis: { format: '~f', tickCount: 9 },
    });
    const y = (field: string) => ({
      field,
      type: 'quantitative' as const,
      scale: yScale,
      title: 'Yield',
      axis: { format: '.3~p', tickCount: 6 },
    });
    const strategy = { field: 'strategy', type: 'nominal' as const };
    const legend = { title: null, orient: 'top' as const, symbolOpacity: 1, columns: legendColumns(labels) };
    return {
      $schema: SCHEMA,
      config: chartConfig(),
      width: WIDTH,
      height: 340,
      autosize: { type: 'fit-x', contains: 'padding' },
      layer: [
        {
          data: { values: points },
          mark: { type: 'point', filled: true, size: 22, opacity: 0.34 },
          encoding: {
            x: x('time'),
            y: y('yield'),
            color: { ...strategy, scale: color, legend },
            shape: { ...strategy, scale: shape, legend },
          },
        },
        ...[
          { width: 5, tone: NEUTRALS.paper.light },
          { width: 2, tone: null },
        ].flatMap(({ width, tone }) => {
          const paint = tone === null ? { color: { ...strategy, scale: color, legend } } : { color: { value: tone } };
          return [
            {
              data: { values: crosses },
              mark: { type: 'rule' as const, strokeWidth: width, strokeCap: 'round' as const },
              encoding: { x: x('t10'), x2: { field: 't90' }, y: y('y50'), ...paint },
            },
            {
              data: { values: crosses },
              mark: { type: 'rule' as const, strokeWidth: width, strokeCap: 'round' as const },
              encoding: { x: x('t50'), y: y('y10'), y2: { field: 'y90' }, ...paint },
            },
          ];
        }),
        {
          data: { values: crosses },
          mark: { type: 'point', filled: true, size: 130, opacity: 1, stroke: NEUTRALS.paper.light, strokeWidth: 1.5 },
          encoding: {
            x: x('t50'),
            y: y('y50'),
            color: { ...strategy, scale: color, legend },
            shape: { ...strategy, scale: shape, legend },
          },
        },
      ],
    };
  },
  table: (summary) => {
    const scale = timeScale(summary);
    return {
      columns: [
        { label: 'Strategy' },
        { label: 'Instrument time, median', numeric: true },
        { label: '10th to 90th percentile', numeric: true },
        { label: 'Yield, median', numeric: true },
        { label: '10th to 90th percentile', numeric: true },
        { label: 'Mean time', numeric: true },
        { label: 'Mean yield', numeric: true },
      ],
      rows: summary.strategies.map((strategy) => {
        const at = middle(strategy, summary);
        return [
          strategy.name,
          `${numberText(at.t50)} ${scale.unit}`,
          `${numberText(at.t10)} to ${numberText(at.t90)}`,
          numberText(at.y50, SHARE),
          `${numberText(at.y10, SHARE)} to ${numberText(at.y90, SHARE)}`,
          estimateLine(strategy.measures.instrumentTime, scale),
          estimateLine(strategy.measures.yield, SHARE),
        ];
      }),
    };
  },
};
