import type { Sweep } from './results.js';
import { estimateLine, halfWidthLine } from '../../wording/numbers.js';
import type { Table } from '../../report/table.js';
import { type SweepPanel, sweepPanels } from './panels.js';

/** A row for each strategy at each point of the grid. */
export function sweepTable(result: Sweep): Table {
  const panels = sweepPanels(result);
  return {
    columns: [
      { label: 'Strategy' },
      ...result.ranges.map(({ path }) => ({ label: path, numeric: true })),
      ...panels.map(({ title }) => ({ label: title, numeric: true })),
    ],
    rows: result.strategies.flatMap(({ name }) =>
      result.cells
        .filter(({ strategy }) => strategy === name)
        .map((cell) => [name, ...cell.settings, ...panels.map(({ of, scale }) => estimateLine(of(cell), scale))]),
    ),
  };
}

/** Measures that a terminal shows, from the widest table to the narrowest. */
const SHOWN: readonly (readonly SweepPanel['id'][])[] = [
  ['time', 'perGood', 'operatorTime', 'yield', 'cost'],
  ['time', 'operatorTime', 'yield', 'cost'],
  ['time', 'yield', 'cost'],
  ['time', 'yield'],
];

/** The same for a terminal, as far as there is room: one strategy's points, intervals as half-widths. */
export function shortSweepTables(result: Sweep, strategy: string): readonly Table[] {
  const panels = sweepPanels(result);
  const cells = result.cells.filter((cell) => cell.strategy === strategy);
  return SHOWN.map((ids) => {
    const shown = panels.filter(({ id }) => ids.includes(id));
    return {
      columns: [
        ...result.ranges.map(({ path }) => ({ label: path })),
        ...shown.map(({ title }) => ({ label: title, numeric: true })),
      ],
      rows: cells.map((cell) => [...cell.settings, ...shown.map(({ of, scale }) => halfWidthLine(of(cell), scale))]),
    };
  });
}
