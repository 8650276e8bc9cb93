import { cbrt, exp, ln } from '../chance/elementary.js';
import { LN_SQRT_TWO_PI, NODES } from './gauss-hermite.js';

/** A radius read from a tip that has slid. */
export interface Reading {
  /** Load times path over the missing-volume factor (nN·mm): by how much R³ grows for a wear coefficient of 1. */
  readonly growth: number;
  /** Nanometres. */
  readonly radius: number;
  /** Standard deviation of the reading, nanometres. */
  readonly error: number;
}

/** How radii of new tips and wear coefficients lie over tips: natural logarithms, standard deviations among them not negative. */
export interface WearSpread {
  readonly logRadius: number;
  readonly radiusSd: number;
  readonly logWear: number;
  readonly wearSd: number;
}

/** Steps towards the likeliest tip this short are the last. */
const STILL = 1e-9;

const MOST_STEPS = 60;

const MOST_HALVINGS = 20;

/** The cube of the new radius of a tip with deviate x, cubic nanometres. */
function cubeAt({ logRadius, radiusSd }: WearSpread, x: number): number {
  return exp(3 * (logRadius + radiusSd * x));
}

/** The wear coefficient of a tip with deviate y. */
function wearAt({ logWear, wearSd }: WearSpread, y: number): number {
  return exp(logWear + wearSd * y);
}

/** Log of the readings' density and of a standard normal in each of x and y, the tip's two deviates, but for constants. */
function logJoint(readings: readonly Reading[], cube: number, wear: number, x: number, y: number): number {
  let sum = -(x * x + y * y) / 2;
  for (const { growth, radius, error } of readings) {
    const off = (radius - cbrt(cube + wear * growth)) / error;
    sum -= (off * off) / 2;
  }
  return sum;
}

/** A tip's likeliest deviates and what is known of them: the information of Gauss and Newton, which is never indefinite. */
interface Likeliest {
  readonly x: number;
  readonly y: number;
  readonly value: number;
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
}

function likeliest(readings: readonly Reading[], spread: WearSpread): Likeliest {
  let x = 0;
  let y = 0;
  let cube = cubeAt(spread, x);
  let wear = wearAt(spread, y);
  let value = logJoint(readings, cube, wear, x, y);
  for (let count = 0; ; count += 1) {
    let [xx, xy, yy] = [1, 0, 1];
    let [slopeX, slopeY] = [-x, -y];
    for (const { growth, radius, error } of readings) {
      const modelled = cbrt(cube + wear * growth);
      const byX = (spread.radiusSd * cube) / (modelled * modelled * error);
      const byY = (spread.wearSd * wear * growth) / (3 * modelled * modelled * error);
      const off = (radius - modelled) / error;
      xx += byX * byX;
      xy += byX * byY;
      yy += byY * byY;
      slopeX += off * byX;
      slopeY += off * byY;
    }
    const determinant = xx * yy - xy * xy;
    const stepX = (yy * slopeX - xy * slopeY) / determinant;
    const stepY = (xx * slopeY - xy * slopeX) / determinant;
    const arrived = Math.max(Math.abs(stepX), Math.abs(stepY)) < STILL || count === MOST_STEPS;
    if (arrived || Number.isNaN(determinant)) return { x, y, value, xx, xy, yy };
    let share = 1;
    let next = value;
    for (let halvings = 0; halvings < MOST_HALVINGS; halvings += 1) {
      cube = cubeAt(spread, x + share * stepX);
      wear = wearAt(spread, y + share * stepY);
      next = logJoint(readings, cube, wear, x + share * stepX, y + share * stepY);
      if (next >= value) break;
      share /= 2;
    }
    if (!(next >= value)) return { x, y, value, xx, xy, yy };
    x += share * stepX;
    y += share * stepY;
    value = next;
  }
}

/**
 * Log-likelihood of one tip's readings, its own new radius and wear coefficient integrated out by adaptive Gauss-Hermite quadrature about
 * where they are likeliest (J. C. Pinheiro and D. M. Bates, J. Comput. Graph. Stat. 4, 12, 1995). Radius after sliding by Archard's law:
 * R³ = R0³ + k · growth.
 */
export function tipLogLikelihood(readings: readonly Reading[], spread: WearSpread): number {
  const { x, y, value, xx, xy, yy } = likeliest(readings, spread);
  // Lower triangle L of Cholesky with L Lᵀ the inverse of the information.
  const determinant = xx * yy - xy * xy;
  const sdX = Math.sqrt(yy / determinant);
  const lean = -xy / determinant / sdX;
  const sdY = 1 / Math.sqrt(yy);
  let sum = 0;
  for (const a of NODES) {
    const u = Math.SQRT2 * a.at;
    const cube = cubeAt(spread, x + sdX * u);
    for (const b of NODES) {
      const v = Math.SQRT2 * b.at;
      const deviate = y + lean * u + sdY * v;
      const there = logJoint(readings, cube, wearAt(spread, deviate), x + sdX * u, deviate);
      sum += a.weight * b.weight * exp(there - value + a.at * a.at + b.at * b.at);
    }
  }
  const errors = readings.reduce((all, { error }) => all + ln(error) + LN_SQRT_TWO_PI, 0);
  // Of the two standard normals 1/2π is left, of the quadrature's change of scale 2 sdX sdY.
  return value - errors + ln((sum * sdX * sdY) / Math.PI);
}
