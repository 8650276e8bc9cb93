import { NEUTRALS } from '../palette.js';
import type { Stretch } from './strips.js';

/** Rates, in nanometres a second, between which all are drawn. */
interface Limits {
  readonly low: number;
  readonly high: number;
}

/** Rates lower than the greatest by more than this are drawn at the bottom. */
const WIDEST = 1e4;
const STEPS = [1, 2, 5, 10];

/** By row, rates over time; null where none drifts. */
export function rateLimits(rows: readonly (readonly Stretch<number>[])[]): Limits | null {
  const rates = rows.flatMap((row) => row.map(({ what }) => what)).filter((rate) => rate > 0);
  if (rates.length === 0) return null;
  const greatest = rates.reduce((most, rate) => Math.max(most, rate), 0);
  const least = rates.reduce((low, rate) => Math.min(low, rate), Infinity);
  const high = rounded(greatest, (steps, share) => steps.find((step) => step >= share));
  const low = rounded(Math.max(least, greatest / WIDEST), (steps, share) => steps.findLast((step) => step <= share));
  return { low: Math.min(low, high / 2), high };
}

/** One of 1, 2 and 5 times a power of ten. */
function rounded(rate: number, pick: (steps: readonly number[], share: number) => number | undefined): number {
  const decade = 10 ** Math.floor(Math.log10(rate));
  return Number(((pick(STEPS, rate / decade) ?? 1) * decade).toPrecision(1));
}

/** Axes of the picture, in which row 0 goes from 0 to 1, and the part of each row that the line has. */
interface Frame<X, Y> {
  readonly x: X;
  readonly y: Y;
  readonly divisor: number;
  readonly end: number;
  readonly within: readonly [top: number, bottom: number];
}

/** The line of each row that drifts, on a logarithmic scale, over lines at the limits. */
export function driftLayers<X extends object, Y extends object>(
  rows: readonly (readonly Stretch<number>[])[],
  { low, high }: Limits,
  { x, y, divisor, end, within: [top, bottom] }: Frame<X, Y>,
) {
  const at = (row: number, rate: number): number =>
    row + bottom - (Math.log(Math.max(rate, low) / low) / Math.log(high / low)) * (bottom - top);
  const drifting = rows.flatMap((stretches, row) => (stretches.length === 0 ? [] : [{ row, stretches }]));
  const limits = drifting.flatMap(({ row }) =>
    [low, high].map((rate) => ({
      start: 0,
      end: end / divisor,
      top: at(row, rate),
      rate: `${String(rate)} nm/s`,
    })),
  );
  const line = drifting.flatMap(({ row, stretches }) => {
    const last = stretches[stretches.length - 1];
    return [...stretches, { ...last, start: last.end }].map(({ start, what }) => ({
      row,
      start: start / divisor,
      top: at(row, what),
    }));
  });
  return [
    {
      data: { values: limits },
      mark: { type: 'rule' as const, color: NEUTRALS.line.light, strokeWidth: 0.7 },
      encoding: { x, x2: { field: 'end' }, y },
    },
    {
      data: { values: limits },
      mark: { type: 'text' as const, align: 'left' as const, fontSize: 9, dx: 4, color: NEUTRALS.soft.light },
      encoding: { x: { ...x, field: 'end' }, y, text: { field: 'rate' } },
    },
    {
      data: { values: line },
      mark: { type: 'line' as const, interpolate: 'step-after' as const, color: NEUTRALS.ink.light, strokeWidth: 1.1 },
      encoding: { x, y, detail: { field: 'row' } },
    },
  ];
}
