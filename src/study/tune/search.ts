/** A place of a grid: for each direction the index of its setting. */
export type Place = readonly number[];

export interface Grid {
  /** Settings in each direction. */
  readonly sizes: readonly number[];
  /** Whether neighbouring indices are alike; else all of a direction are neighbours. */
  readonly isOrdered: readonly boolean[];
}

export interface SearchTask<Score> {
  readonly grid: Grid;
  /** Looked at before all others; null where nothing is known. */
  readonly start: Place | null;
  /** Most places to be looked at. */
  readonly most: number;
  /** Null where there is nothing at this place. */
  readonly look: (place: Place) => Score | null;
  readonly isBetter: (one: Score, other: Score) => boolean;
}

export interface LookedAt<Score> {
  readonly place: Place;
  readonly score: Score;
}

/** Places spread over the grid before the search, and how many of the best are searched from. */
const SPREAD = 64;
const STARTS = 5;
const PRIMES = [2, 3, 5, 7, 11, 13] as const;
/** Most directions, since each has its own base in the spreading. */
export const MOST_DIRECTIONS = PRIMES.length;

/**
 * The places of a grid that a search looked at, the best first. It spreads places evenly (J. H. Halton, Numer. Math. 2, 84,
 * 1960), then goes from each of the best of them to the best neighbour as long as that is better, in shorter and shorter steps
 * (compass search: T. G. Kolda, R. M. Lewis and V. Torczon, SIAM Rev. 45(3), 385–482, 2003). All on the same luck, so that what is
 * searched is one fixed function (A. J. Kleywegt, A. Shapiro and T. Homem-de-Mello, SIAM J. Optim. 12(2), 479–502, 2002).
 * Several starts, since a response may have several valleys; that the best of all places is found is not promised.
 */
export function searchGrid<Score>({
  grid,
  start,
  most,
  look,
  isBetter,
}: SearchTask<Score>): readonly LookedAt<Score>[] {
  const seen = new Map<string, LookedAt<Score> | null>();
  const lookAt = (place: Place): LookedAt<Score> | null => {
    const key = place.join();
    const known = seen.get(key);
    if (known !== undefined || seen.size >= most) return known ?? null;
    const score = look(place);
    const looked = score === null ? null : { place, score };
    seen.set(key, looked);
    return looked;
  };
  if (start !== null) lookAt(start);
  for (let number = 1; number <= SPREAD; number += 1) lookAt(spreadPlace(grid, number));
  for (const from of bestFirst(seen, isBetter).slice(0, STARTS)) climb(from, grid, lookAt, isBetter);
  return bestFirst(seen, isBetter);
}

function bestFirst<Score>(
  seen: ReadonlyMap<string, LookedAt<Score> | null>,
  isBetter: SearchTask<Score>['isBetter'],
): readonly LookedAt<Score>[] {
  return [...seen.values()]
    .filter((looked) => looked !== null)
    .sort((a, b) => (isBetter(a.score, b.score) ? -1 : isBetter(b.score, a.score) ? 1 : 0));
}

function climb<Score>(
  from: LookedAt<Score>,
  grid: Grid,
  lookAt: (place: Place) => LookedAt<Score> | null,
  isBetter: SearchTask<Score>['isBetter'],
): void {
  let steps = grid.sizes.map((size) => Math.max(1, Math.floor(size / 8)));
  let here = from;
  for (;;) {
    const before = here;
    for (const place of neighbours(before.place, steps, grid)) {
      const there = lookAt(place);
      if (there !== null && isBetter(there.score, here.score)) here = there;
    }
    if (here !== before) continue;
    if (steps.every((step) => step === 1)) return;
    steps = steps.map((step) => Math.max(1, Math.floor(step / 2)));
  }
}

function neighbours(place: Place, steps: readonly number[], { sizes, isOrdered }: Grid): readonly Place[] {
  return place.flatMap((index, direction) => {
    const others = isOrdered[direction]
      ? [index - steps[direction], index + steps[direction]].filter((other) => other >= 0 && other < sizes[direction])
      : Array.from({ length: sizes[direction] }, (_, other) => other).filter((other) => other !== index);
    return others.map((other) => place.map((own, at) => (at === direction ? other : own)));
  });
}

/** Place `number` (from 1) of Halton's sequence. */
function spreadPlace({ sizes }: Grid, number: number): Place {
  return sizes.map((size, direction) => Math.floor(radicalInverse(number, PRIMES[direction]) * size));
}

/** The digits of a number in a base, mirrored at the point: in [0, 1). */
function radicalInverse(number: number, base: number): number {
  let inverse = 0;
  let worth = 1 / base;
  for (let rest = number; rest > 0; rest = Math.floor(rest / base)) {
    inverse += (rest % base) * worth;
    worth /= base;
  }
  return inverse;
}
