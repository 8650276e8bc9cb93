import type { Estimate } from '../../statistics/estimate.js';
import { moneyScale, type Scale, SHARE, unitName, workScale } from '../../wording/numbers.js';
import type { Sweep, SweepCell, SweepRange } from './results.js';
import { settingLabel } from '../../analysis/vary/axis.js';
import { INSTRUMENT_TIME, OPERATOR_TIME } from '../../analysis/words.js';
import { capital } from '../../wording/phrases.js';
import { type Axis, rangeTitle } from '../../report/charts/axes.js';

/** What a sweep shows of every cell. */
export interface SweepPanel {
  readonly id: 'time' | 'perGood' | 'operatorTime' | 'lost' | 'yield' | 'cost';
  readonly title: string;
  readonly scale: Scale;
  readonly of: (cell: SweepCell) => Estimate;
  /** Less of it is better. */
  readonly isLessBetter: boolean;
}

export function sweepPanels(result: Sweep): readonly SweepPanel[] {
  const { cells, scenario } = result;
  const time = ({ measures }: SweepCell) => measures.instrumentTime;
  const operator = ({ measures }: SweepCell) => measures.operatorTime;
  const lost = ({ scanningLost }: SweepCell) => scanningLost;
  const largest = (of: (cell: SweepCell) => Estimate) => Math.max(...cells.map((cell) => of(cell).value), 0);
  return [
    { id: 'time', title: INSTRUMENT_TIME, scale: workScale(largest(time)), of: time, isLessBetter: true },
    ...perGoodPanel(cells),
    {
      id: 'operatorTime',
      title: OPERATOR_TIME,
      scale: workScale(largest(operator)),
      of: operator,
      isLessBetter: true,
    },
    { id: 'lost', title: 'scans lost', scale: workScale(largest(lost)), of: lost, isLessBetter: true },
    { id: 'yield', title: 'yield', scale: SHARE, of: ({ measures }) => measures.yield, isLessBetter: false },
    {
      id: 'cost',
      title: 'cost',
      scale: moneyScale(scenario.currency),
      of: ({ measures }) => measures.cost,
      isLessBetter: true,
    },
  ];
}

/** Time for each good image; nothing where none was ever kept at some point. */
function perGoodPanel(cells: readonly SweepCell[]): readonly SweepPanel[] {
  const known = cells.flatMap(({ timePerGood }) => timePerGood ?? []);
  if (known.length < cells.length) return [];
  const scale = workScale(Math.max(...known.map(({ value }) => value), 0));
  const of = (cell: SweepCell) => known[cells.indexOf(cell)];
  return [{ id: 'perGood', title: 'time per good image', scale, of, isLessBetter: true }];
}

/** `Instrument time (hours)` */
export function panelTitle({ title, scale }: SweepPanel): string {
  return `${capital(title)}${scale.unit === '' ? '' : ` (${unitName(scale)})`}`;
}

/** How a setting of a range stands on an axis: its number where all are numbers, else as it is written. */
export function axisValue({ isChoice, numbers, settings }: SweepRange, number: number): number | string {
  return isChoice ? settingLabel(settings[number]) : (numbers[number] ?? 0);
}

/** The axis of a range. */
export function axisOf(range: SweepRange): Axis {
  const title = titleOf(range);
  if (range.isChoice) return { title, places: range.settings.map((_, number) => String(axisValue(range, number))) };
  const numbers = range.settings.map((_, number) => Number(axisValue(range, number)));
  return { title, isLog: range.isLog, domain: [Math.min(...numbers), Math.max(...numbers)] };
}

/** A range as an axis says it; settings of a choice carry their own units. */
export function titleOf({ description, unit, isChoice }: SweepRange): string {
  return rangeTitle(description, isChoice ? '' : unit);
}
