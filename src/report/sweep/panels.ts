import type { Estimate } from '../../study/results.js';
import type { Sweep, SweepCell, SweepRange } from '../../study/sweep/results.js';
import { settingLabel } from '../../study/vary/axis.js';
import { INSTRUMENT_TIME, OPERATOR_TIME } from '../../study/words.js';
import { moneyScale, SHARE, type Scale, unitName, workScale } from '../format.js';

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

function capital(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}

/** How a setting of a range stands on an axis: its number where all are numbers, else as it is written. */
export function axisValue({ isChoice, numbers, settings }: SweepRange, number: number): number | string {
  return isChoice ? settingLabel(settings[number]) : (numbers[number] ?? 0);
}

export function rangeTitle({ path, unit, isChoice }: SweepRange): string {
  return unit === '' || isChoice ? path : `${path} (${unit})`;
}
