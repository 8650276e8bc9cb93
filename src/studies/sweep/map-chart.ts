import { nameIn } from '../../scenario/describe.js';
import { numberText } from '../../wording/numbers.js';
import { listed, quoted } from '../../wording/phrases.js';
import type { Sweep, SweepCell } from './results.js';
import { settingLabel } from '../../analysis/vary/axis.js';
import { QUALITY_TONES } from '../../report/palette.js';
import { uniqueLabels } from '../../report/text.js';
import { panelTitle, titleOf, type SweepPanel, sweepPanels } from './panels.js';
import { sweepTable } from './table.js';
import type { Chart } from '../../report/charts/chart.js';
import { heatMap } from '../../report/charts/heat-map.js';

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
      return `Maps of ${panel.title} over ${listed(result.ranges.map(({ description }) => quoted(nameIn(description))))}. ${listed(
        shown(result).map((name) => {
          const best = bestOf(cellsOf(result, name), panel);
          return `${name} has its best, ${numberText(panel.of(best).value, panel.scale)}, at ${best.settings.join(', ')}`;
        }),
      )}.`;
    },
    drawing: (result) => {
      const names = shown(result);
      if (names.length === 0) return null;
      const panel = panelOf(result);
      const [across, down] = result.ranges;
      const labels = uniqueLabels(names, 30);
      const classes = classesOf(result, names, panel);
      const place = ({ settings: [x, y] }: SweepCell) => ({ x, y });
      return heatMap({
        looks: classes.looks,
        title: panelTitle(panel),
        columns: 2,
        step: Math.max(16, Math.min(34, 260 / down.settings.length)),
        panels: names.map((name, number) => {
          const cells = cellsOf(result, name);
          return {
            title: labels[number],
            x: { title: titleOf(across), places: across.settings.map(settingLabel) },
            y: { title: titleOf(down), places: down.settings.map(settingLabel).toReversed() },
            cells: cells.map((cell) => ({ ...place(cell), look: classes.of(panel.of(cell).value) })),
            rings: [place(bestOf(cells, panel))],
          };
        }),
      });
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
  const tones = isLessBetter ? QUALITY_TONES.toReversed() : QUALITY_TONES;
  const unique =
    new Set(labels).size === count ? labels : labels.map((label, place) => `${String(place + 1)}: ${label}`);
  return {
    looks: unique.map((name, place) => ({ name, tone: tones[place] })),
    of: (value: number) =>
      unique[high > low ? Math.min(count - 1, Math.floor(((value - low) / (high - low)) * count)) : 0],
  };
}
