import { ln } from '../chance/elementary.js';
import { covarianceAt, maximise, type Objective, type Peak } from './maximise.js';
import { type Ends, type Find, halfWidth, profileEnds } from './profile.js';

/** Where the search for one free number may go. */
export interface Reach {
  readonly low: number;
  readonly high: number;
  /** Whether what it stands for may be none: on a scale of logarithms it would go on for ever, so that it is held at `low`. */
  readonly mayVanish: boolean;
}

/** ln of a spread over tips or disturbances that is none, below 1 %, and of one (e^20) that rises for ever. */
export const SPREAD_REACH: Reach = { low: ln(0.01), high: 3, mayVanish: true };

/** Where the search gives up this near to none, it was on its way there. */
const NEAR = 1.5;

type Covariance = readonly (readonly number[])[];

/** A free number at the top of the likelihood, with the ends of its interval; null: the likelihood sets none, or it may vanish. */
export interface FoundNumber extends Ends {
  readonly at: number;
  readonly isNone: boolean;
}

/** The top of a likelihood of numbers some of which may vanish. */
export interface Top {
  readonly numbers: readonly FoundNumber[];
  readonly value: number;
  /** Of all numbers; nothing but zeros for one that is none. */
  readonly covariance: Covariance;
}

interface Found {
  readonly peak: Peak;
  /** All numbers at the peak, those held with them. */
  readonly at: readonly number[];
  /** Indices of those that were free; the others are none, and were held there. */
  readonly freed: readonly number[];
}

/** The function with some of its numbers free, the others as they stand in `fixed`. */
function over(objective: Objective, freed: readonly number[], fixed: readonly number[]): Objective {
  return (some) => {
    const all = [...fixed];
    freed.forEach((i, j) => (all[i] = some[j]));
    return objective(all);
  };
}

/** The top, with a number that would vanish held at none. */
function search(
  objective: Objective,
  start: readonly number[],
  reaches: readonly Reach[],
  freed: readonly number[] = [...start.keys()],
): Found {
  const within = (some: readonly number[]) =>
    freed.every((i, j) => some[j] > reaches[i].low && some[j] < reaches[i].high);
  const from = freed.map((i) => start[i]);
  const peak = maximise(over(objective, freed, start), from, within);
  const at = start.map((one, i) => (freed.includes(i) ? peak.at[freed.indexOf(i)] : one));
  const above = (i: number) => at[i] - reaches[i].low;
  const nearest = freed
    .filter((i) => reaches[i].mayVanish)
    .sort((a, b) => above(a) - above(b))
    .at(0);
  if (peak.converged || nearest === undefined || above(nearest) > NEAR) return { peak, at, freed };
  const others = freed.filter((i) => i !== nearest);
  return search(objective, at.with(nearest, reaches[nearest].low), reaches, others);
}

/** Ends of one number, all others at their best, be it that one is none there or that it is some. */
function endsOf(
  objective: Objective,
  { peak, at }: Found,
  reaches: readonly Reach[],
  index: number,
  known: Covariance,
  level: number,
): Ends {
  const others = reaches.toSpliced(index, 1);
  const find: Find = (held, start) => {
    // One that is none has no slope to follow: it is looked for from just above.
    const from = start.map((one, i) => (others[i].mayVanish ? Math.max(one, others[i].low + NEAR) : one));
    const found = search(held, from, others);
    return { at: found.at, value: found.peak.value };
  };
  const { low, high } = profileEnds(objective, { ...peak, at }, index, known, level, find);
  const vanishes = reaches[index].mayVanish && low !== null && low <= reaches[index].low;
  return { low: vanishes ? null : low, high };
}

/** A covariance of those that are free as one of all, with what `rest` says of the others. */
function filled(
  known: Covariance,
  freed: readonly number[],
  size: number,
  rest: (i: number, j: number) => number,
): Covariance {
  const all = Array.from({ length: size }, (_, i) => i);
  return all.map((i) =>
    all.map((j) => {
      const [row, column] = [freed.indexOf(i), freed.indexOf(j)];
      return row < 0 || column < 0 ? rest(i, j) : known[row][column];
    }),
  );
}

/**
 * The covariance with a number that may be none no less certain than its upper end says: on a scale of logarithms the
 * likelihood is flat towards none, and its curvature there would let the number be anything. Correlations stay.
 */
function withinEnds(
  known: Covariance,
  { at, freed }: Found,
  reaches: readonly Reach[],
  ends: readonly Ends[],
  level: number,
): Covariance {
  const factors = freed.map((index, place) => {
    const { low, high } = ends[index];
    if (!reaches[index].mayVanish || low !== null || high === null) return 1;
    return Math.min(1, (high - at[index]) / halfWidth(level) / Math.sqrt(known[place][place]));
  });
  return known.map((row, i) => row.map((one, j) => one * factors[i] * factors[j]));
}

/**
 * The top of a log-likelihood of numbers some of which may vanish, with profile-likelihood intervals; null where it has no top.
 * @param start of all numbers
 * @param level of confidence, in (0, 1)
 */
export function topOf(
  objective: Objective,
  start: readonly number[],
  reaches: readonly Reach[],
  level: number,
): Top | null {
  const found = search(objective, start, reaches);
  const { peak, at, freed } = found;
  const known = peak.converged ? covarianceAt(over(objective, freed, at), peak) : null;
  if (known === null) return null;
  // Nothing is known of the curvature of a number that is none: any guess will do to look for its upper end from.
  const curved = filled(known, freed, start.length, (i, j) => (i === j ? 1 : 0));
  const ends = start.map((_, i) => endsOf(objective, found, reaches, i, curved, level));
  return {
    numbers: at.map((one, i) => ({ at: one, isNone: !freed.includes(i), ...ends[i] })),
    value: peak.value,
    covariance: filled(withinEnds(known, found, reaches, ends, level), freed, start.length, () => 0),
  };
}
