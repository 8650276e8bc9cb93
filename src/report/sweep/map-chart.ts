import type { Sweep, SweepCell } from '../../study/sweep/results.js';
import { settingLabel } from '../../study/vary/axis.js';
import { type Chart, SCHEMA, WIDTH } from '../charts/chart.js';
import { chartConfig } from '../charts/config.js';
import { numberText } from '../format.js';
import { NEUTRALS, QUALITY_TONES } from '../palette.js';
import { listed, uniqueLabels } from '../text.js';
import { panelTitle, rangeTitle, type SweepPanel, sweepPanels } from './panels.js';
import { sweepTable } from './table.js';

type MapId = SweepPanel['id'];

/** The plane of two ranges, a map for each strategy that follows them. */
export function mapChart(id: MapId, title: string): Chart<Sweep> {
  const panelOf = (result: Sweep) => sweepPanels(result).filter((panel) => panel.id === id)[0];
  const shown = (result: Sweep) => result.strategies.filter(({ follows }) => follows).map(({ name }) => name);
  return {
    id: `map-${id}`,
    title,
    caption: (result) =>
      `The more a cell stands out, the ${panelOf(result).isLessBetter ? 'more' : 'less'}. The ring marks the best mean of each map. Numbers with their intervals stand in the table and in sweep.csv.`,
    alt: (result) => {
      const panel = panelOf(result);
      return `Maps of ${panel.title} over ${listed(result.ranges.map(({ path }) => path))}. ${listed(
        shown(result).map((name) => {
          const best = bestOf(cellsOf(result, name), panel);
          return `${name} has its best, ${numberText(panel.of(best).value, panel.scale)}, at ${best.settings.join(', ')}`;
        }),
      )}.`;
    },
    spec: (result) => {
      const names = shown(result);
      if (names.length === 0) return null;
      const panel = panelOf(result);
      const [across, down] = result.ranges;
      const labels = uniqueLabels(names, 30);
      const classes = classesOf(result, names, panel);
      const settingsOf = (axis: number) => result.ranges[axis].settings.map(settingLabel);
      const columns = Math.min(2, names.length);
      const width = columns === 1 ? WIDTH - 120 : 340;
      const x = { field: 'x', type: 'ordinal' as const, title: rangeTitle(across), sort: settingsOf(0) };
      const y = { field: 'y', type: 'ordinal' as const, title: rangeTitle(down), sort: settingsOf(1).toReversed() };
      return {
        $schema: SCHEMA,
        config: { ...chartConfig(), concat: { spacing: 26 } },
        columns,
        resolve: { scale: { color: 'shared' } },
        concat: names.map((name, place) => {
          const cells = cellsOf(result, name);
          const row = (cell: SweepCell) => ({ x: cell.settings[0], y: cell.settings[1] });
          return {
            title: { text: labels[place], frame: 'group' as const },
            width,
            height: Math.max(80, Math.min(260, 34 * down.settings.length)),
            layer: [
              {
                data: { values: cells.map((cell) => ({ ...row(cell), class: classes.of(panel.of(cell).value) })) },
                mark: { type: 'rect' as const, stroke: NEUTRALS.paper.light, strokeWidth: 1 },
                encoding: {
                  x: { ...x, axis: { labelAngle: 0, labelOverlap: true, grid: false, domain: false, ticks: false } },
                  y: { ...y, axis: { grid: false, domain: false, ticks: false } },
                  color: {
                    field: 'class',
                    type: 'nominal' as const,
                    scale: { domain: [...classes.labels], range: classes.tones },
                    legend: {
                      title: panelTitle(panel),
                      orient: 'bottom' as const,
                      symbolType: 'square',
                      symbolStrokeWidth: 0,
                      columns: 6,
                    },
                  },
                },
              },
              {
                data: { values: [row(bestOf(cells, panel))] },
                mark: {
                  type: 'point' as const,
                  filled: true,
                  size: 130,
                  color: NEUTRALS.paper.light,
                  stroke: NEUTRALS.ink.light,
                  strokeWidth: 2,
                  opacity: 1,
                },
                encoding: { x, y },
              },
            ],
          };
        }),
      };
    },
    table: sweepTable,
  };
}

function cellsOf({ cells }: Sweep, name: string): readonly SweepCell[] {
  return cells.filter(({ strategy }) => strategy === name);
}

function bestOf(cells: readonly SweepCell[], { of, isLessBetter }: SweepPanel): SweepCell {
  return cells.reduce((best, cell) => (of(cell).value < of(best).value === isLessBetter ? cell : best));
}

/** Classes of equal width from the least to the most of all maps; the worst has the tone that stands out most. */
function classesOf(result: Sweep, names: readonly string[], { of, scale, isLessBetter }: SweepPanel) {
  const values = result.cells.filter(({ strategy }) => names.includes(strategy)).map((cell) => of(cell).value);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const count = QUALITY_TONES.length;
  const bound = (place: number) => numberText((low + ((high - low) * place) / count) / scale.divisor);
  const labels = QUALITY_TONES.map((_, place) => `${bound(place)} to ${bound(place + 1)}`);
  const tones = QUALITY_TONES.map((tone) => tone.light);
  const unique =
    new Set(labels).size === count ? labels : labels.map((label, place) => `${String(place + 1)}: ${label}`);
  return {
    labels: unique,
    tones: isLessBetter ? tones.toReversed() : tones,
    of: (value: number) =>
      unique[high > low ? Math.min(count - 1, Math.floor(((value - low) / (high - low)) * count)) : 0],
  };
}
