import { nameIn } from '../../scenario/describe.js';
import { numberText, SHARE } from '../../wording/numbers.js';
import { listed } from '../../wording/phrases.js';
import type { Sweep } from './results.js';
import { axisOf, axisValue, panelTitle, sweepPanels } from './panels.js';
import { sweepTable } from './table.js';
import { type Chart, strategyLooks } from '../../report/charts/chart.js';
import { curves } from '../../report/charts/curves.js';

/** What becomes of every strategy along one range. */
export const linesChart: Chart<Sweep> = {
  id: 'lines',
  title: 'Along the range',
  caption: (result) =>
    `Means over ${numberText(result.replications)} replications of each strategy at every setting, all with common random numbers; bands are ${numberText(result.level, SHARE)} intervals, setting by setting. Scans lost are those not kept. No axis begins at zero unless it must.`,
  alt: (result) =>
    `Panels of lines, one line a strategy: ${listed(sweepPanels(result).map(({ title }) => title))}, along “${nameIn(result.ranges[0].description)}”.`,
  drawing: (result) => {
    const [range] = result.ranges;
    const looks = strategyLooks(result);
    return curves({
      looks,
      x: axisOf(range),
      columns: 2,
      height: 210,
      panels: sweepPanels(result).map((panel) => ({
        y: { title: panelTitle(panel) },
        points: result.cells.map((cell) => {
          const { value, low, high } = panel.of(cell);
          const { divisor } = panel.scale;
          return {
            look: looks[result.strategies.findIndex(({ name }) => name === cell.strategy)].name,
            x: axisValue(range, cell.at[0]),
            value: value / divisor,
            low: low / divisor,
            high: high / divisor,
          };
        }),
      })),
    });
  },
  table: sweepTable,
};
