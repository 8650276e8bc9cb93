import { fixed, numberText, type Scale, unitName, workScale } from '../../wording/numbers.js';
import { listed } from '../../wording/phrases.js';
import { LOST_PARTS, type TimePart, TIME_PARTS } from '../../campaign/time-parts.js';
import type { Sweep, SweepCell } from './results.js';
import { TIME_PART_TONES } from '../../report/palette.js';
import { titleOf } from './panels.js';
import { bars } from '../../report/charts/bars.js';
import { type Chart, strategyLabels } from '../../report/charts/chart.js';

/** Where the time of each strategy goes at every setting of one range, and why. */
export const partsChart: Chart<Sweep> = {
  id: 'parts',
  title: 'Where the time goes',
  caption: (result) =>
    `Mean instrument time by what it was for${result.scenario.instruments > 1 ? ', of the instrument that ends last' : ''}: from the left what the plan asks for, then what is lost. Numbers in the bars are those of the legend. A bad scan is lost to the one thing without which it would have been good: drift, loss of tracking, else its tip.`,
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
  drawing: (result) => {
    const shown = shownOf(result);
    if (shown.length === 0) return null;
    const scale = scaleOf(result);
    const used = usedIn(result);
    return bars({
      looks: used.map((part) => ({ name: numbered(part), tone: TIME_PART_TONES[part] })),
      x: { title: `Instrument time (${unitName(scale)})`, time: scale },
      columns: 2,
      step: 28,
      panels: shown.map(({ label, cells }) => ({
        title: label,
        note: titleOf(result.ranges[0]),
        rows: cells.map(({ settings, timeParts }) => ({
          name: settings[0],
          parts: used.map((part) => ({
            look: numbered(part),
            size: timeParts[part].value / scale.divisor,
            text: String(TIME_PARTS.indexOf(part) + 1),
          })),
        })),
      })),
    });
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
