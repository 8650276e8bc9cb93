import type { Sweep } from '../../study/sweep/results.js';
import { estimateLine } from '../format.js';
import type { Table } from '../table.js';
import { sweepPanels } from './panels.js';

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
