import { LOST_PARTS, type TimePart, TIME_PARTS } from '../../campaign/time-parts.js';
import type { Sweep, SweepCell } from '../../study/sweep/results.js';
import { type Chart, SCHEMA, strategyLabels, timeTicks, WIDTH } from '../charts/chart.js';
import { chartConfig } from '../charts/config.js';
import { fixed, numberText, type Scale, unitName, workScale } from '../format.js';
import { NEUTRALS, TIME_PART_TONES } from '../palette.js';
import { listed } from '../text.js';
import { rangeTitle } from './panels.js';

const HEIGHT = 300;
/** Share of the height from which on a part has room for its number, and bars up to which they stay legible. */
const ROOM = 0.045;
const MOST_NUMBERED = 16;

/** Where the time of each strategy goes at every setting of one range, and why. */
export const partsChart: Chart<Sweep> = {
  id: 'parts',
  title: 'Where the time goes',
  caption: (result) =>
    `Mean instrument time by what it was for${result.scenario.instruments > 1 ? ', of the instrument that ends last' : ''}: from below what the plan asks for, then what is lost. Numbers in the bars are those of the legend. A bad scan is lost to the one thing without which it would have been good: drift, too fast scanning, else its tip.`,
  alt: (result) =>
    `Stacked bars, one a setting. ${listed(
      shownOf(result).map(({ label, cells }) => {
        const [first, last] = [cells[0], cells[cells.length - 1]];
        const scale = scaleOf(result);
        const text = (cell: SweepCell) =>
          `at ${cell.settings[0]} ${numberText(cell.measures.instrumentTime.value, scale)}, of which ${numberText(lostOf(cell), scale)} lost`;
        return `${label}: ${text(first)}; ${text(last)}`;
      }),
    )}.`,
  spec: (result) => {
    const shown = shownOf(result);
    if (shown.length === 0) return null;
    const scale = scaleOf(result);
    const [range] = result.ranges;
    const used = usedIn(result);
    const names = used.map(numbered);
    const top = Math.max(...shown.flatMap(({ cells }) => cells.map((cell) => cell.measures.instrumentTime.value)));
    const highest = (1.04 * top) / scale.divisor || 1;
    const columns = Math.min(2, shown.length);
    const width = columns === 1 ? WIDTH - 90 : 390;
    return {
      $schema: SCHEMA,
      config: { ...chartConfig(), concat: { spacing: 26 } },
      columns,
      resolve: { scale: { color: 'shared' } },
      concat: shown.map(({ label, cells }) => {
        const parts = cells.flatMap((cell) => piled(cell, used, scale));
        const isNumbered = cells.length <= MOST_NUMBERED;
        const roomy = parts.filter(({ from, to }) => isNumbered && to - from > ROOM * highest);
        const x = {
          field: 'setting',
          type: 'ordinal' as const,
          title: rangeTitle(range),
          sort: cells.map(({ settings }) => settings[0]),
          axis: { labelAngle: 0, labelOverlap: true, grid: false, domain: false, ticks: false },
        };
        const y = {
          type: 'quantitative' as const,
          title: `Instrument time (${unitName(scale)})`,
          scale: { domain: [0, highest], nice: false },
          axis: { values: timeTicks(highest, scale), format: '~f' },
        };
        const number = (mark: { color: string; stroke?: string; strokeWidth?: number }) => ({
          data: {
            values: roomy.map(({ setting, from, to, number: text }) => ({ setting, middle: (from + to) / 2, text })),
          },
          mark: { type: 'text' as const, fontWeight: 'bold' as const, ...mark },
          encoding: { x, y: { ...y, field: 'middle' }, text: { field: 'text', type: 'nominal' as const } },
        });
        return {
          title: { text: label, frame: 'group' as const },
          width,
          height: HEIGHT,
          layer: [
            {
              data: { values: parts },
              mark: { type: 'bar' as const, stroke: NEUTRALS.paper.light, strokeWidth: 1 },
              encoding: {
                x,
                y: { ...y, field: 'from' },
                y2: { field: 'to' },
                color: {
                  field: 'part',
                  type: 'nominal' as const,
                  sort: names,
                  scale: { domain: names, range: used.map((part) => TIME_PART_TONES[part].light) },
                  legend: {
                    title: null,
                    orient: 'bottom' as const,
                    columns: 3,
                    symbolType: 'square',
                    symbolStrokeWidth: 0,
                    offset: 14,
                  },
                },
              },
            },
            number({ stroke: NEUTRALS.paper.light, strokeWidth: 3, color: NEUTRALS.paper.light }),
            number({ color: NEUTRALS.ink.light }),
          ],
        };
      }),
    };
  },
  table: (result) => {
    const scale = scaleOf(result);
    const decimals = scale.unit === 'h' ? 2 : 1;
    const used = usedIn(result);
    return {
      columns: [
        { label: `Strategy, mean ${unitName(scale)}` },
        { label: result.ranges[0].path, numeric: true },
        ...used.map((part) => ({ label: numbered(part), numeric: true })),
      ],
      rows: shownOf(result).flatMap(({ label, cells }) =>
        cells.map((cell) => [
          label,
          cell.settings[0],
          ...used.map((part) => fixed(cell.timeParts[part].value / scale.divisor, decimals)),
        ]),
      ),
    };
  },
};

/** Strategies that follow the range, with their cells in its order. */
function shownOf(result: Sweep): readonly { readonly label: string; readonly cells: readonly SweepCell[] }[] {
  const labels = strategyLabels(result);
  return result.strategies.flatMap(({ name, follows }, place) => {
    const cells = result.cells.filter(({ strategy }) => strategy === name);
    return follows && cells.length > 0 ? [{ label: labels[place], cells }] : [];
  });
}

function scaleOf({ cells }: Sweep): Scale {
  return workScale(Math.max(...cells.map(({ measures }) => measures.instrumentTime.value), 0));
}

/** Parts that any time of what is shown goes to. */
function usedIn(result: Sweep): readonly TimePart[] {
  const cells = shownOf(result).flatMap((each) => each.cells);
  return TIME_PARTS.filter((part) => cells.some(({ timeParts }) => timeParts[part].value > 0));
}

function numbered(part: TimePart): string {
  return `${String(TIME_PARTS.indexOf(part) + 1)} ${part}`;
}

function lostOf({ timeParts }: SweepCell): number {
  return LOST_PARTS.reduce((sum, part) => sum + timeParts[part].value, 0);
}

/** The parts of a cell, one on the other. */
function piled({ settings, timeParts }: SweepCell, used: readonly TimePart[], { divisor }: Scale) {
  let top = 0;
  return used.map((part) => {
    const from = top;
    top += timeParts[part].value / divisor;
    return { setting: settings[0], part: numbered(part), number: String(TIME_PARTS.indexOf(part) + 1), from, to: top };
  });
}
