import { type Goal, observedMean, observedSense } from './goals.js';
import type { Task } from '../../execution/job.js';
import { completed, type Work } from '../../execution/work.js';
import { type Place, searchGrid } from './search.js';
import type { Candidate, Space } from './space.js';
import { type TrialGround, Trials } from './trials.js';

/** Replications of the first look, which nothing else uses. */
export const LOOK = 50;

/** Settings that are all compared; from larger spaces, so many of the best that a search finds. */
const MOST_ALL = 60;
const MOST_SEARCHED = 30;
const MOST_LOOKED = 200;

/** What the first look saw of a setting. */
export interface Looked {
  readonly candidate: Candidate;
  /** Mean of what a selection observes. */
  readonly observed: number;
  readonly yield: number;
  readonly trials: Trials;
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
export function* firstLook(space: Space, goal: Goal, leastYield: number, ground: TrialGround): Work<FirstLook> {
  const glances = new Glances(space, ground);
  const lookAt = (place: Place): Looked | null => {
    const glance = glances.at(place);
    if (glance === null) return null;
    const trials = glance.trials.lookAt(LOOK);
    // Where time is so short that nothing is ever good, no number of images per time says how short.
    return { candidate: glance.candidate, observed: observedMean(goal, trials), yield: trials.mean('yield'), trials };
  };
  if (space.size <= MOST_ALL) {
    const places = Array.from({ length: space.size }, (_, number) => space.placeAt(number));
    yield* completed(ground.counter.over(glances.tasksAt(places)));
    const looked = places.map(lookAt).filter((each) => each !== null);
    return { looked, chosen: looked };
  }
  const search = searchGrid({
    grid: space.grid,
    start: space.presentPlace,
    most: MOST_LOOKED,
    look: lookAt,
    isBetter: betterLook(goal, leastYield),
  });
  for (;;) {
    const step = search.next();
    if (step.done !== true) {
      yield* completed(ground.counter.over(glances.tasksAt(step.value)));
      continue;
    }
    const looked = step.value.map(({ score }) => score);
    return { looked, chosen: looked.slice(0, MOST_SEARCHED).sort(inOrder) };
  }
}

/** A setting with the campaigns of its first look. */
interface Glance {
  readonly candidate: Candidate;
  readonly trials: Trials;
}

/** The first looks at settings, by their places. */
class Glances {
  private readonly known = new Map<string, Glance | null>();

  constructor(
    private readonly space: Space,
    private readonly ground: TrialGround,
  ) {}

  /** What it takes to look at these places. */
  *tasksAt(places: readonly Place[]): Generator<Task> {
    for (const place of places) {
      const candidate = this.space.candidateAt(place);
      const glance = candidate === null ? null : { candidate, trials: new Trials(candidate.strategy, 1, this.ground) };
      this.known.set(place.join(), glance);
      if (glance !== null) yield* glance.trials.tasksTo(LOOK);
    }
  }

  /** Null where the settings of a place cannot be together. */
  at(place: Place): Glance | null {
    return this.known.get(place.join()) ?? null;
  }
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
