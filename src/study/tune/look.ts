import { type Goal, observedMean, observedSense } from './goals.js';
import { type LookedAt, searchGrid } from './search.js';
import type { Candidate, Space } from './space.js';
import { type TrialGround, Trials } from './trials.js';

/** Replications of the first look, which nothing else uses. */
export const LOOK = 50;

/** Settings that are all compared; from larger spaces, so many of the best that a search finds. */
const MOST_ALL = 60;
const MOST_SEARCHED = 30;
export const MOST_LOOKED = 200;

/** What the first look saw of a setting. */
export interface Looked {
  readonly candidate: Candidate;
  /** Mean of what a selection observes. */
  readonly observed: number;
  readonly yield: number;
}

export interface FirstLook {
  /** The best first where the space was searched, else in the order of the ranges. */
  readonly looked: readonly Looked[];
  /** Those to select from, in the order of the ranges. */
  readonly chosen: readonly Looked[];
}

/** Whether one look is better than another; what misses the least yield comes behind what has it. */
export function betterLook(goal: Goal, leastYield: number): (one: Looked, other: Looked) => boolean {
  const sign = observedSense(goal) === 'most' ? 1 : -1;
  return (one, other) => {
    const [missing, otherMissing] = [one, other].map((each) => Math.max(0, leastYield - each.yield));
    return missing === otherMissing ? sign * (one.observed - other.observed) > 0 : missing < otherMissing;
  };
}

/** Looks at every setting of a small space, and at those of a large one where a search leads. */
export function firstLook(space: Space, goal: Goal, leastYield: number, ground: TrialGround): FirstLook {
  const lookAt = (candidate: Candidate | null): Looked | null => {
    if (candidate === null) return null;
    const trials = new Trials(candidate.strategy, 1, ground).upTo(LOOK);
    // Where time is so short that nothing is ever good, no number of images per time says how short.
    return { candidate, observed: observedMean(goal, trials), yield: trials.mean('yield') };
  };
  if (space.size <= MOST_ALL) {
    const places = Array.from({ length: space.size }, (_, number) => space.placeAt(number));
    const looked = places.map((place) => lookAt(space.candidateAt(place))).filter((each) => each !== null);
    return { looked, chosen: looked };
  }
  const found: readonly LookedAt<Looked>[] = searchGrid({
    grid: space.grid,
    start: space.presentPlace,
    most: MOST_LOOKED,
    look: (place) => lookAt(space.candidateAt(place)),
    isBetter: betterLook(goal, leastYield),
  });
  const looked = found.map(({ score }) => score);
  return { looked, chosen: looked.slice(0, MOST_SEARCHED).sort(inOrder) };
}

function inOrder({ candidate: a }: Looked, { candidate: b }: Looked): number {
  const at = a.place.findIndex((index, direction) => index !== b.place[direction]);
  return at < 0 ? 0 : a.place[at] - b.place[at];
}

/** The mean that the zone is a share of: the best of the first look, of those that have the least yield if any has. */
export function bestOf(looked: readonly Looked[], goal: Goal, leastYield: number): number {
  const isBetter = betterLook(goal, leastYield);
  return looked.reduce((ahead, each) => (isBetter(each, ahead) ? each : ahead)).observed;
}
