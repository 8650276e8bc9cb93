import { exp, ln } from '../chance/elementary.js';
import type { FittedParameter } from './fit-life.js';
import { type Reach, SPREAD_REACH, topOf } from './vanishing.js';
import { type Reading, tipLogLikelihood, type WearSpread } from './wear-likelihood.js';

/** A radius read from a tip. */
export interface WearReading {
  readonly tip: string;
  /** Path slid since the tip was new, millimetres; 0 for a new tip. */
  readonly path: number;
  /** Mean load over that path, nanonewtons. */
  readonly load: number;
  /** Apex radius, nanometres. */
  readonly radius: number;
  /** Standard deviation of this reading, nanometres, above 0. */
  readonly error: number;
}

/** The parameters by name: new-tip radius (nm) and wear coefficient (nm³/(nN·mm)), each with its geometric standard deviation over tips. */
export type WearParameter = 'radius' | 'radiusGeometricSd' | 'wear' | 'wearGeometricSd';

export interface WearFit {
  readonly converged: true;
  /**
   * In the order of WearParameter, with profile-likelihood intervals. A geometric SD of 1: the readings' errors explain all differences between tips,
   * and the interval starts there.
   */
  readonly parameters: readonly (FittedParameter & { readonly name: WearParameter })[];
  readonly logLikelihood: number;
  /** ln radius, ln(ln radiusGeometricSd), ln wear, ln(ln wearGeometricSd). */
  readonly free: readonly number[];
  /** Of the free parameters; nothing but zeros for a geometric SD of 1. */
  readonly covariance: readonly (readonly number[])[];
  readonly tips: number;
  readonly readings: number;
  readonly level: number;
}

export interface NoWearFit {
  readonly converged: false;
  /** Fewer than three tips; no reading after sliding, or none that has grown; or no top of the likelihood. */
  readonly reason: 'too-few-tips' | 'no-wear-seen' | 'no-finite-maximum';
  readonly tips: number;
  readonly readings: number;
}

/** A geometric SD over tips is hardly told from a single tip by fewer (common practice, no source). */
const FEWEST_TIPS = 3;

const FARTHEST = 40;

const NAMES: readonly WearParameter[] = ['radius', 'radiusGeometricSd', 'wear', 'wearGeometricSd'];

function isSpread(index: number): boolean {
  return index % 2 === 1;
}

function shown(index: number, free: number): number {
  return isSpread(index) ? exp(exp(free)) : exp(free);
}

function spreadOf([logRadius, radius, logWear, wear]: readonly number[]): WearSpread {
  return { logRadius, radiusSd: exp(radius), logWear, wearSd: exp(wear) };
}

function meanAndSd(values: readonly number[]): { mean: number; sd: number } {
  const mean = values.reduce((sum, one) => sum + one, 0) / values.length;
  const variance = values.reduce((sum, one) => sum + (one - mean) * (one - mean), 0) / values.length;
  return { mean, sd: Math.max(Math.sqrt(variance), 0.05) };
}

/** Rough values from each tip's first and last readings; null where no tip has grown. */
function startOf(tips: readonly (readonly Reading[])[]): number[] | null {
  const cubed = (radius: number) => radius * radius * radius;
  const ends = tips.map((readings) => {
    const sorted = [...readings].sort((a, b) => a.growth - b.growth);
    return { first: sorted[0], last: sorted[sorted.length - 1] };
  });
  const steps = ends.filter(({ first, last }) => last.growth > first.growth && last.radius > first.radius);
  if (steps.length === 0) return null;
  const rates = steps.map(
    ({ first, last }) => (cubed(last.radius) - cubed(first.radius)) / (last.growth - first.growth),
  );
  const radius = meanAndSd(ends.map(({ first }) => ln(first.radius)));
  const wear = meanAndSd(rates.map(ln));
  return [radius.mean, ln(radius.sd), wear.mean, ln(wear.sd)];
}

function group(rows: readonly WearReading[], missingVolume: number): Reading[][] {
  const tips = new Map<string, Reading[]>();
  rows.forEach(({ tip, path, load, radius, error }, index) => {
    const sound = path >= 0 && load >= 0 && radius > 0 && error > 0 && path * load * radius * error < Infinity;
    if (!sound)
      throw new RangeError(`reading ${index} is none: path ${path}, load ${load}, radius ${radius}, error ${error}`);
    const reading = { growth: (load * path) / missingVolume, radius, error };
    const known = tips.get(tip);
    if (known === undefined) tips.set(tip, [reading]);
    else known.push(reading);
  });
  return [...tips.values()];
}

/**
 * Fits Archard's blunting, R³ = R0³ + k·F·s / c, to radii read from tips: new-tip radius and wear coefficient, both lognormal over tips, by
 * maximum likelihood with the tips' own values integrated out. Best known where tips were read new and again after sliding.
 * @param missingVolume c, volume that the apex misses of a sharp cone, per R³ (of the tip's half-angle)
 * @param level of confidence, in (0, 1)
 * @throws RangeError for a reading that is none
 */
export function fitWear(rows: readonly WearReading[], missingVolume: number, level: number): WearFit | NoWearFit {
  const tips = group(rows, missingVolume);
  const none = (reason: NoWearFit['reason']): NoWearFit => ({
    converged: false,
    reason,
    tips: tips.length,
    readings: rows.length,
  });
  if (tips.length < FEWEST_TIPS) return none('too-few-tips');
  const start = startOf(tips);
  if (start === null) return none('no-wear-seen');
  const top = topOf(
    (free) => {
      const geometricSd = spreadOf(free);
      return tips.reduce((sum, readings) => sum + tipLogLikelihood(readings, geometricSd), 0);
    },
    start,
    start.map((one, i): Reach => {
      return isSpread(i) ? SPREAD_REACH : { low: one - FARTHEST, high: one + FARTHEST, mayVanish: false };
    }),
    level,
  );
  if (top === null) return none('no-finite-maximum');
  return {
    converged: true,
    parameters: NAMES.map((name, i) => {
      const { at, isNone, low, high } = top.numbers[i];
      return {
        name,
        value: isNone ? 1 : shown(i, at),
        low: low === null ? (isSpread(i) ? 1 : null) : shown(i, low),
        high: high === null ? null : shown(i, high),
      };
    }),
    logLikelihood: top.value,
    free: top.numbers.map(({ at }) => at),
    covariance: top.covariance,
    tips: tips.length,
    readings: rows.length,
    level,
  };
}
