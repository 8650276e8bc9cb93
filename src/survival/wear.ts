import { exp, ln } from '../chance/elementary.js';
import type { FittedParameter } from './fit-life.js';
import { covarianceAt, maximise, type Objective, type Peak } from './maximise.js';
import { over } from './over.js';
import { type Ends, type Find, halfWidth, profileEnds } from './profile.js';
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
export type WearParameter = 'radius' | 'radiusSpread' | 'wear' | 'wearSpread';

export interface WearFit {
  readonly converged: true;
  /**
   * In the order of WearParameter, with profile-likelihood intervals. A spread of 1: the readings' errors explain all differences between tips,
   * and the interval starts there.
   */
  readonly parameters: readonly (FittedParameter & { readonly name: WearParameter })[];
  readonly logLikelihood: number;
  /** ln radius, ln(ln radiusSpread), ln wear, ln(ln wearSpread). */
  readonly free: readonly number[];
  /** Of the free parameters; nothing but zeros for a spread of 1. */
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

/** A spread over tips is hardly told from a single tip by fewer (common practice, no source). */
const FEWEST_TIPS = 3;

/** A spread below 1 % is none: no reading of a radius is so good. */
const NO_SPREAD = ln(0.01);

/** Where the search gives up this near to it, it was on its way to none. */
const NEAR = 1.5;

/** Spreads above this factor (e^20) are a likelihood that rises for ever. */
const LARGEST_LOG_SPREAD = 3;

const FARTHEST = 40;

type Covariance = readonly (readonly number[])[];

const NAMES: readonly WearParameter[] = ['radius', 'radiusSpread', 'wear', 'wearSpread'];

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

interface Found {
  readonly peak: Peak;
  /** All numbers at the peak, those held with them. */
  readonly at: readonly number[];
  /** Indices of those that were free; the others are spreads that are none, and were held there. */
  readonly freed: readonly number[];
}

/**
 * The top of a likelihood, with a spread that would vanish held at none: on a scale of logarithms it would go on for ever.
 * @param start of all its numbers
 * @param freed indices of those that are free
 * @param spreads which of all are spreads
 */
function search(
  objective: Objective,
  start: readonly number[],
  freed: readonly number[],
  spreads: (index: number) => boolean,
): Found {
  const within = (some: readonly number[]) =>
    freed.every((i, j) => {
      const one = some[j];
      return spreads(i) ? one > NO_SPREAD && one < LARGEST_LOG_SPREAD : Math.abs(one - start[i]) < FARTHEST;
    });
  const from = freed.map((i) => start[i]);
  const peak = maximise(over(objective, freed, start), from, within);
  const at = start.map((one, i) => (freed.includes(i) ? peak.at[freed.indexOf(i)] : one));
  const narrowest = freed
    .filter(spreads)
    .sort((a, b) => at[a] - at[b])
    .at(0);
  if (peak.converged || narrowest === undefined || at[narrowest] > NO_SPREAD + NEAR) return { peak, at, freed };
  const others = freed.filter((i) => i !== narrowest);
  return search(objective, at.with(narrowest, NO_SPREAD), others, spreads);
}

/** Ends of one number, all others at their best, be it that a spread is none there or that it is some. */
function endsOf(objective: Objective, { peak, at }: Found, index: number, known: Covariance, level: number): Ends {
  const kinds = [...NAMES.keys()].filter((i) => i !== index);
  const find: Find = (held, start) => {
    // A spread that is none has no slope to follow: it is looked for from just above.
    const from = start.map((one, i) => (isSpread(kinds[i]) ? Math.max(one, NO_SPREAD + NEAR) : one));
    const found = search(held, from, [...from.keys()], (i) => isSpread(kinds[i]));
    return { at: found.at, value: found.peak.value };
  };
  return profileEnds(objective, { ...peak, at }, index, known, level, find);
}

/** A covariance of those that are free as one of all four, with what `rest` says of the others. */
function filled(known: Covariance, freed: readonly number[], rest: (i: number, j: number) => number): Covariance {
  return NAMES.map((_, i) =>
    NAMES.map((__, j) => {
      const [row, column] = [freed.indexOf(i), freed.indexOf(j)];
      return row < 0 || column < 0 ? rest(i, j) : known[row][column];
    }),
  );
}

/**
 * The covariance with a spread that may be none no less certain than its upper end says: on a scale of logarithms of logarithms
 * the likelihood is flat towards none, and its curvature there would let the spread be anything. Correlations stay.
 */
function withinEnds(known: Covariance, { at, freed }: Found, ends: readonly Ends[], level: number): Covariance {
  const factors = freed.map((index, place) => {
    const { low, high } = ends[index];
    if (!isSpread(index) || (low !== null && low > NO_SPREAD) || high === null) return 1;
    return Math.min(1, (high - at[index]) / halfWidth(level) / Math.sqrt(known[place][place]));
  });
  return known.map((row, i) => row.map((one, j) => one * factors[i] * factors[j]));
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
  const objective: Objective = (free) => {
    const spread = spreadOf(free);
    return tips.reduce((sum, readings) => sum + tipLogLikelihood(readings, spread), 0);
  };
  const found = search(objective, start, [0, 1, 2, 3], isSpread);
  const known = found.peak.converged ? covarianceAt(over(objective, found.freed, found.at), found.peak) : null;
  if (known === null) return none('no-finite-maximum');
  // Nothing is known of the curvature of a spread that is none: any guess will do to look for its upper end from.
  const curved = filled(known, found.freed, (i, j) => (i === j ? 1 : 0));
  const ends = NAMES.map((_, i) => endsOf(objective, found, i, curved, level));
  return {
    converged: true,
    parameters: NAMES.map((name, i) => {
      const { low, high } = ends[i];
      const isNone = !found.freed.includes(i);
      const lowest = isSpread(i) ? 1 : null;
      return {
        name,
        value: isNone ? 1 : shown(i, found.at[i]),
        low: low === null || isNone ? lowest : shown(i, low),
        high: high === null ? null : shown(i, high),
      };
    }),
    logLikelihood: found.peak.value,
    free: found.at,
    covariance: filled(withinEnds(known, found, ends, level), found.freed, () => 0),
    tips: tips.length,
    readings: rows.length,
    level,
  };
}
