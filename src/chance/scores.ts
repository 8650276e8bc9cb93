import { erfcinv, exp, ln, log1p } from './elementary.js';

/*
 * Scores of a uniform draw, from which every distribution is made: the standard normal and the unit exponential quantile. They are read
 * from tables, since the inverse functions took a fifth of a campaign: an octave of probability has 64 cells with a cubic each, through
 * four points of the exact inverse, so that cells narrow towards 0 and 1 as fast as the inverse bends. Beyond the octaves the inverse is
 * asked itself. Tables and polynomials are + - * / alone: the same bits in every engine.
 */

/** Cells an octave, and octaves below one half: the last ends at 2^-21. */
const CELLS = 64;
const OCTAVES = 20;
const COEFFICIENTS = 4;
/** Where the cells of the upper half begin. */
const UPPER = OCTAVES * CELLS * COEFFICIENTS;
const TWO_TO_32 = 4_294_967_296;

/** A quantile function as cubics, by u in the lower half and by 1 - u in the upper one. */
function tableOf(below: (u: number) => number, above: (u: number) => number): Float64Array {
  const table = new Float64Array(2 * UPPER);
  for (const [side, f] of [below, above].entries()) {
    let width = 0.5 / CELLS;
    for (let cell = 0; cell < OCTAVES * CELLS; cell += 1) {
      const inOctave = cell & (CELLS - 1);
      if (inOctave === 0) width /= 2;
      const from = (CELLS + inOctave) * width;
      const y0 = f(from);
      const y1 = f(from + width / 3);
      const y2 = f(from + (2 * width) / 3);
      const y3 = f(from + width);
      const at = side * UPPER + cell * COEFFICIENTS;
      table[at] = y0;
      table[at + 1] = (-11 * y0 + 18 * y1 - 9 * y2 + 2 * y3) / 2;
      table[at + 2] = (9 * (2 * y0 - 5 * y1 + 4 * y2 - y3)) / 2;
      table[at + 3] = (9 * (y3 - 3 * y2 + 3 * y1 - y0)) / 2;
    }
  }
  return table;
}

/** The value at u; NaN outside the table. Without a branch but for that, as the side of a draw cannot be guessed. */
function read(table: Float64Array, u: number): number {
  const v = 0.5 - Math.abs(u - 0.5);
  const high = (v * TWO_TO_32) | 0;
  const octave = Math.clz32(high) - 1;
  if (octave >>> 0 >= OCTAVES) return NaN;
  const cell = (high >>> (24 - octave)) & (CELLS - 1);
  const at = ((u + u) | 0) * UPPER + (octave * CELLS + cell) * COEFFICIENTS;
  const t = v * (256 << octave) - (CELLS + cell);
  return table[at] + t * (table[at + 1] + t * (table[at + 2] + t * table[at + 3]));
}

const SQRT_TWO = 1.4142135623730951;
const exactNormal = (u: number) => -SQRT_TWO * erfcinv(2 * u);
const NORMAL = tableOf(exactNormal, (v) => -exactNormal(v));
const EXPONENTIAL = tableOf(
  (u) => -log1p(-u),
  (v) => -ln(v),
);

/**
 * Standard normal quantile: the z below which a share u lies, to 1e-9.
 * @param u in (0, 1)
 */
export function normalScore(u: number): number {
  const z = read(NORMAL, u);
  return z === z ? z : exactNormal(u);
}

/**
 * Unit exponential quantile -ln(1 - u), to a relative 1e-9.
 * @param u in (0, 1)
 */
export function exponentialScore(u: number): number {
  const score = read(EXPONENTIAL, u);
  return score === score ? score : -log1p(-u);
}

const LN_TWO = 0.6931471805599453;
/** ln 2 / 64 in two parts, of which the first has zeros enough at its end to be multiplied exactly. */
const STEP = LN_TWO / 64;
const STEPS = 1 / STEP;
const STEP_HIGH = 0.01083042469326756;
const STEP_LOW = 2.9815858269852933e-12;
const POWERS = Float64Array.from({ length: 64 }, (_, i) => exp(i * STEP));
/** Powers of two from 2^-1022 on. */
const SCALES = new Float64Array(2046).fill(2.2250738585072014e-308);
for (let i = 1; i < SCALES.length; i += 1) SCALES[i] = 2 * SCALES[i - 1];
/** Far enough inside the format that the result is neither rounded off nor too large. */
const WELL_INSIDE = 700;

/** e^x to the last bits, by 64 powers of two and a polynomial on the rest (|rest| <= ln 2 / 128). */
export function power(x: number): number {
  if (!(x < WELL_INSIDE && x > -WELL_INSIDE)) return exp(x);
  const n = Math.floor(x * STEPS + 0.5) | 0;
  const rest = x - n * STEP_HIGH - n * STEP_LOW;
  const place = n & 63;
  const square = rest * rest;
  const growth = rest + square * (1 / 2 + rest * (1 / 6) + square * (1 / 24 + rest * (1 / 120)));
  return POWERS[place] * (1 + growth) * SCALES[((n - place) >> 6) + 1022];
}

/** A lognormal distribution: its median, in any unit, and the standard deviation of its logarithm. */
export interface Lognormal {
  readonly median: number;
  readonly sigma: number;
}

/** @param geometricSd geometric standard deviation, at least 1 */
export function lognormal(median: number, geometricSd: number): Lognormal {
  return { median, sigma: geometricSd === 1 ? 0 : ln(geometricSd) };
}

/** The value below which a share u in (0, 1) lies. */
export function lognormalScore({ median, sigma }: Lognormal, u: number): number {
  return sigma === 0 ? median : median * power(sigma * normalScore(u));
}
