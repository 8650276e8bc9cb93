import { assertLives, type Observation } from './observation.js';

/** Where the estimate puts a share of the tips' deaths: after `from`, at or before `to`. Equal ends: exactly there. */
export interface MassCell {
  readonly from: number;
  /** Infinity for the share that outlives everything. */
  readonly to: number;
  readonly mass: number;
}

/** The survival curve where it is known: from the end of one cell to the start of the next it is level, inside a cell it is anyone's guess. */
export interface IntervalCurve {
  readonly cells: readonly MassCell[];
  readonly iterations: number;
  readonly converged: boolean;
}

/** Masses that move by less than this in a step have arrived. */
const STILL = 1e-11;

const MOST_ITERATIONS = 20_000;

/** A share below this is none. */
const NEGLIGIBLE = 1e-9;

/** Where a place lies at one and the same exposure: the left end of a point, any right end, the left end of what comes after. */
type Rank = 0 | 1 | 2;

interface Place {
  readonly at: number;
  readonly rank: Rank;
}

function order(a: Place, b: Place): number {
  return a.at === b.at ? a.rank - b.rank : a.at - b.at;
}

function leftOf({ from, to }: Observation): Place {
  return { at: from, rank: from === to ? 0 : 2 };
}

/**
 * The innermost cells: each starts where some life's set does and ends at the next place where a set ends or a tip enters, with no other
 * start between. Only there can the estimate put anything (B. W. Turnbull, J. R. Stat. Soc. B 38, 290, 1976; entries as places of ending:
 * H. Frydman, J. R. Stat. Soc. B 56, 71, 1994).
 */
function innermost(observations: readonly Observation[]): { left: Place; right: Place }[] {
  const lefts = observations.map(leftOf);
  const entries = observations.filter(({ entry }) => entry > 0).map(({ entry }) => entry);
  const rights = [...observations.map(({ to }) => to), ...entries].map((at): Place => ({ at, rank: 1 }));
  const places = [...lefts, ...rights].sort(order);
  const cells: { left: Place; right: Place }[] = [];
  places.forEach((right, i) => {
    const left = places[i - 1];
    if (i > 0 && right.rank === 1 && left.rank !== 1) cells.push({ left, right });
  });
  return cells;
}

/** The cells that a life may have ended in, from `first` up to and without `end`, and the first that could be seen after its entry. */
interface Reach {
  readonly first: number;
  readonly end: number;
  readonly seen: number;
}

/**
 * The survival curve of lives known exactly, to an interval or only to be longer, entry after zero allowed, with no distribution assumed: Turnbull's
 * estimate by his self-consistency algorithm. On exact and right-censored lives it is Kaplan and Meier's.
 * @throws RangeError for an observation that is no life
 */
export function turnbull(observations: readonly Observation[]): IntervalCurve {
  assertLives(observations);
  const cells = innermost(observations);
  /** Cells are in order, so those before a place are the first so many. */
  const count = (before: (cell: { left: Place; right: Place }) => boolean) => cells.filter(before).length;
  const reaches = observations.map((one): Reach => {
    const left = leftOf(one);
    return {
      first: count((cell) => order(cell.left, left) < 0),
      end: count((cell) => order(cell.right, { at: one.to, rank: 1 }) <= 0),
      seen: one.entry === 0 ? 0 : count((cell) => order(cell.left, { at: one.entry, rank: 1 }) < 0),
    };
  });
  let masses = cells.map(() => 1 / cells.length);
  let iterations = 0;
  let converged = false;
  while (!converged && iterations < MOST_ITERATIONS) {
    const next = improved(masses, reaches);
    converged = next.every((mass, j) => Math.abs(mass - masses[j]) < STILL);
    masses = next;
    iterations += 1;
  }
  const kept = cells.map(({ left, right }, j) => ({ from: left.at, to: right.at, mass: masses[j] }));
  return { cells: kept.filter(({ mass }) => mass > NEGLIGIBLE), iterations, converged };
}

/** One step: every life shared out over its cells, with those that were never seen for having ended before such an entry. */
function improved(masses: readonly number[], reaches: readonly Reach[]): number[] {
  const upTo = [0];
  for (const mass of masses) upTo.push(upTo[upTo.length - 1] + mass);
  const whole = upTo[masses.length];
  /** By how much the weight of a cell differs from that of the cell before. */
  const changes = upTo.map(() => 0);
  for (const { first, end, seen } of reaches) {
    const own = 1 / (upTo[end] - upTo[first]);
    changes[first] += own;
    changes[end] -= own;
    if (seen === 0) continue;
    const unseen = 1 / (whole - upTo[seen]);
    changes[0] += unseen;
    changes[seen] -= unseen;
  }
  let weight = 0;
  const counts = masses.map((mass, j) => {
    weight += changes[j];
    return mass * Math.max(0, weight);
  });
  const total = counts.reduce((sum, one) => sum + one, 0);
  return counts.map((one) => one / total);
}

/** Share that lives past an exposure; null inside a cell, where it is not known. */
export function curveAt({ cells }: IntervalCurve, exposure: number): number | null {
  if (cells.some(({ from, to }) => from < exposure && exposure < to)) return null;
  return cells.reduce((sum, { to, mass }) => (to > exposure ? sum + mass : sum), 0);
}
