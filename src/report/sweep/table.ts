import type { Sweep } from '../../study/sweep/results.js';
import { estimateLine, halfWidthLine } from '../format.js';
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

/** The same for a terminal, as far as there is room: one strategy's points, intervals as half-widths. */
export function shortSweepTable(result: Sweep, strategy: string, most: number): Table {
  const panels = sweepPanels(result).filter(({ id }) => id !== 'lost');
  return {
    columns: [
      ...result.ranges.map(({ path }, place) => ({ label: path, numeric: place > 0 })),
      ...panels.map(({ title }) => ({ label: title, numeric: true })),
    ],
    rows: result.cells
      .filter((cell) => cell.strategy === strategy)
      .slice(0, most)
      .map((cell) => [...cell.settings, ...panels.map(({ of, scale }) => halfWidthLine(of(cell), scale))]),
  };
}
