import type { Sweep } from '../../study/sweep/results.js';
import { type Chart, SCHEMA, strategyLabels, strategyScales, strokeLegend } from '../charts/chart.js';
import { chartConfig } from '../charts/config.js';
import { numberText, SHARE } from '../format.js';
import { listed } from '../text.js';
import { axisValue, panelTitle, rangeTitle, sweepPanels } from './panels.js';
import { sweepTable } from './table.js';

/** What becomes of every strategy along one range. */
export const linesChart: Chart<Sweep> = {
  id: 'lines',
  title: 'Along the range',
  caption: (result) =>
    `Means over ${numberText(result.replications)} replications of each strategy at every setting, all on the same luck; bands are ${numberText(result.level, SHARE)} intervals, setting by setting. Scans lost are those not kept. No axis begins at zero unless it must.`,
  alt: (result) =>
    `Panels of lines, one line a strategy: ${listed(sweepPanels(result).map(({ title }) => title))}, along ${result.ranges[0].path}.`,
  spec: (result) => {
    const [range] = result.ranges;
    const labels = strategyLabels(result);
    const { color, dash } = strategyScales(result);
    const strategy = { field: 'strategy', type: 'nominal' as const };
    const panels = sweepPanels(result);
    return {
      $schema: SCHEMA,
      config: { ...chartConfig(), concat: { spacing: 22 } },
      columns: 2,
      concat: panels.map((panel, place) => {
        const values = result.cells.map((cell) => {
          const { value, low, high } = panel.of(cell);
          const { divisor } = panel.scale;
          return {
            strategy: labels[result.strategies.findIndex(({ name }) => name === cell.strategy)],
            setting: axisValue(range, cell.at[0]),
            value: value / divisor,
            low: low / divisor,
            high: high / divisor,
          };
        });
        const x = range.isChoice
          ? {
              field: 'setting',
              type: 'ordinal' as const,
              title: rangeTitle(range),
              sort: range.settings.map((_, number) => String(axisValue(range, number))),
              axis: { labelAngle: 0, grid: false },
            }
          : {
              field: 'setting',
              type: 'quantitative' as const,
              title: rangeTitle(range),
              scale: { type: range.isLog ? ('log' as const) : ('linear' as const), zero: false, nice: false },
              axis: { grid: false, format: '~f', tickCount: 8 },
            };
        const y = {
          type: 'quantitative' as const,
          title: panelTitle(panel),
          scale: { zero: false },
          axis: { format: '~f', tickCount: 6 },
        };
        const legend = place === 0 ? strokeLegend(labels) : null;
        return {
          width: 390,
          height: 210,
          data: { values },
          layer: [
            {
              mark: range.isChoice
                ? { type: 'rule' as const, strokeWidth: 2.4 }
                : { type: 'area' as const, opacity: 0.18 },
              encoding: {
                x,
                y: { ...y, field: 'low' },
                y2: { field: 'high' },
                color: { ...strategy, scale: color, legend },
              },
            },
            {
              mark: { type: 'line' as const, strokeWidth: 2.2, point: { size: 28 } },
              encoding: {
                x,
                y: { ...y, field: 'value' },
                color: { ...strategy, scale: color, legend },
                strokeDash: { ...strategy, scale: dash, legend },
              },
            },
          ],
        };
      }),
    };
  },
  table: sweepTable,
};
