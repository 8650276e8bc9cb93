import { ln } from '../../chance/elementary.js';
import { NEUTRALS } from '../palette.js';
import { label, line, type Mark, rule } from './marks.js';
import type { Stretch } from './strips.js';
import type { RateLimits } from './timeline-rows.js';

/** Where a rate lies on the logarithmic scale, from 0 at the top to 1. */
function partOf(rate: number, { low, high }: RateLimits): number {
  return 1 - ln(Math.max(rate, low) / low) / ln(high / low);
}

/**
 * The line of each row that drifts, on a logarithmic scale, over lines at the limits.
 * @param at where a part of a row lies, from 0 at the top of the part that the line has to 1
 */
export function driftLine(
  rows: readonly (readonly Stretch<number>[])[],
  limits: RateLimits,
  end: number,
  at: (row: number, part: number) => number,
): readonly Mark[] {
  const upright = (row: number, rate: number): number => at(row, partOf(rate, limits));
  const drifting = rows.flatMap((stretches, row) => (stretches.length === 0 ? [] : [{ row, stretches }]));
  const ends = drifting.flatMap(({ row }) =>
    [limits.low, limits.high].map((rate) => ({ rate, y: upright(row, rate) })),
  );
  return [
    rule(
      ends.map(({ y }) => ({ x: 0, x2: end, y })),
      { tone: NEUTRALS.line, width: 0.7 },
    ),
    ...drifting.map(({ row, stretches }) => {
      const last = stretches[stretches.length - 1];
      return line(
        [...stretches, { ...last, start: last.end }].map(({ start, what }) => ({ x: start, y: upright(row, what) })),
        { tone: NEUTRALS.ink, width: 1.1, isStepped: true },
      );
    }),
    label(
      ends.map(({ rate, y }) => ({ x: end, y, text: `${String(rate)} nm/s` })),
      { align: 'left', size: 9, dx: 4, tone: NEUTRALS.soft },
    ),
  ];
}
