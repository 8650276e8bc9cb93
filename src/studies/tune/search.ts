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
  /** Null where there is nothing at this place; the procedure has named the place before. */
  readonly look: (place: Place) => Score | null;
  readonly isBetter: (one: Score, other: Score) => boolean;
}

export interface LookedAt<Score> {
  readonly place: Place;
  readonly score: Score;
}

/** A search names the places that it is about to look at, so that they can be got ready together; none of them twice. */
export type Search<Result> = Generator<readonly Place[], Result, undefined>;

/** Places spread over the grid before the search, and how many of the best are searched from. */
const SPREAD = 64;
const STARTS = 5;
const PRIMES = [2, 3, 5, 7, 11, 13] as const;
/** Most directions, since each has its own base in the spreading. */
export const MOST_DIRECTIONS = PRIMES.length;

/**
 * The places of a grid that a search looked at, the best first. It spreads places evenly (J. H. Halton, Numer. Math. 2, 84,
 * 1960), then goes from each of the best of them to the best neighbour as long as that is better, in shorter and shorter steps
 * (compass search: T. G. Kolda, R. M. Lewis and V. Torczon, SIAM Rev. 45(3), 385–482, 2003). All with common random numbers, so that what is
 * searched is one fixed function (A. J. Kleywegt, A. Shapiro and T. Homem-de-Mello, SIAM J. Optim. 12(2), 479–502, 2002).
 * Several starts, since a response may have several minima; that the best of all places is found is not promised.
 */
export function* searchGrid<Score>({
  grid,
  start,
  most,
  look,
  isBetter,
}: SearchTask<Score>): Search<readonly LookedAt<Score>[]> {
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
  const lookAtAll = function* (places: readonly Place[]): Search<readonly LookedAt<Score>[]> {
    const fresh = new Map(places.map((place) => [place.join(), place] as const));
    yield [...fresh].flatMap(([key, place]) => (seen.has(key) ? [] : [place])).slice(0, most - seen.size);
    return places.map(lookAt).filter((looked) => looked !== null);
  };
  const spread = Array.from({ length: SPREAD }, (_, i) => spreadPlace(grid, i + 1));
  yield* lookAtAll(start === null ? spread : [start, ...spread]);
  for (const from of bestFirst(seen, isBetter).slice(0, STARTS)) yield* climb(from, grid, lookAtAll, isBetter);
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

function* climb<Score>(
  from: LookedAt<Score>,
  grid: Grid,
  lookAtAll: (places: readonly Place[]) => Search<readonly LookedAt<Score>[]>,
  isBetter: SearchTask<Score>['isBetter'],
): Search<void> {
  let steps = grid.sizes.map((size) => Math.max(1, Math.floor(size / 8)));
  let here = from;
  for (;;) {
    const before = here;
    for (const there of yield* lookAtAll(neighbours(before.place, steps, grid)))
      if (isBetter(there.score, here.score)) here = there;
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
