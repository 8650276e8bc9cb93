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

/**
 * The survival curve of lives known exactly, to an interval or only to be longer, entry after zero allowed, with no law assumed: Turnbull's
 * estimate by his self-consistency algorithm. On exact and right-censored lives it is Kaplan and Meier's.
 * @throws RangeError for an observation that is no life
 */
export function turnbull(observations: readonly Observation[]): IntervalCurve {
  assertLives(observations);
  const cells = innermost(observations);
  const inLife = observations.map((one) => {
    const right: Place = { at: one.to, rank: 1 };
    return cells.map((cell) => order(cell.left, leftOf(one)) >= 0 && order(cell.right, right) <= 0);
  });
  const inSight = observations.map(({ entry }) =>
    cells.map(({ left }) => entry === 0 || order(left, { at: entry, rank: 1 }) > 0),
  );
  let masses = cells.map(() => 1 / cells.length);
  let iterations = 0;
  let converged = false;
  while (!converged && iterations < MOST_ITERATIONS) {
    const next = improved(masses, inLife, inSight);
    converged = next.every((mass, j) => Math.abs(mass - masses[j]) < STILL);
    masses = next;
    iterations += 1;
  }
  const kept = cells.map(({ left, right }, j) => ({ from: left.at, to: right.at, mass: masses[j] }));
  return { cells: kept.filter(({ mass }) => mass > NEGLIGIBLE), iterations, converged };
}

/** One step: every life shared out over its cells, with those that were never seen for having ended before their entry. */
function improved(
  masses: readonly number[],
  inLife: readonly (readonly boolean[])[],
  inSight: readonly (readonly boolean[])[],
): number[] {
  const counts = masses.map(() => 0);
  let total = 0;
  inLife.forEach((own, i) => {
    const seen = inSight[i];
    const ownMass = masses.reduce((sum, mass, j) => (own[j] ? sum + mass : sum), 0);
    const seenMass = masses.reduce((sum, mass, j) => (seen[j] ? sum + mass : sum), 0);
    masses.forEach((mass, j) => {
      const share = (own[j] ? mass / ownMass : 0) + (seen[j] ? 0 : mass / seenMass);
      counts[j] += share;
      total += share;
    });
  });
  return counts.map((count) => count / total);
}

/** Share that lives past an exposure, null inside a cell, where it is not known. */
export function curveAt({ cells }: IntervalCurve, exposure: number): number | null {
  if (cells.some(({ from, to }) => from < exposure && exposure < to && to < Infinity)) return null;
  const last = cells.find(({ from, to }) => to === Infinity && exposure > from);
  if (last !== undefined && cells.length > 0 && last.from < exposure) return null;
  return cells.reduce((sum, { from, to, mass }) => (to > exposure || from > exposure ? sum + mass : sum), 0);
}
