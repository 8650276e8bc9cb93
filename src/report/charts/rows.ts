import type { Axis } from './axes.js';
import { nameRoom } from './axes.js';
import { label, type Mark } from './marks.js';

/** Pictures narrower than this have the name of a row above it. */
const WIDE_ENOUGH = 560;
const ABOVE = 20;

/** Rows of a panel, one below the other. */
export interface Rows {
  readonly y: Axis;
  readonly height: number;
  /** Pixels to the left of the first plot. */
  readonly room: number;
  /** Whether a name stands above its row, with the whole width to itself. */
  readonly isAbove: boolean;
  /** Where a part of a row lies, from 0 at its top to 1. */
  readonly at: (row: number, part: number) => number;
  readonly names: Mark;
}

/** Rows of so many pixels with their names, which stand to the left where there is room for them. */
export function rowsOf(names: readonly string[], step: number, width: number): Rows {
  const isAbove = width < WIDE_ENOUGH;
  const above = isAbove ? ABOVE : 0;
  const height = step + above;
  const at = (row: number, part: number) => row + (above + part * step) / height;
  return {
    y: { hidden: [names.length, 0] },
    height: height * names.length,
    room: isAbove ? 0 : nameRoom(names),
    isAbove,
    at,
    names: label(
      names.map((text, row) => ({ text, y: isAbove ? row + 4 / height : at(row, 0.5) })),
      isAbove ? { align: 'left', baseline: 'top', hasGround: true } : { align: 'right', baseline: 'middle' },
      { x: isAbove ? 0 : -12 },
    ),
  };
}
