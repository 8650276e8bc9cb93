import type { Collector } from '../../execution/collector.js';
import type { Runnable } from '../../execution/replicate.js';
import type { Change } from '../change.js';
import { Refused } from '../changed-scenario.js';
import type { Scenarios } from '../task.js';
import type { StrategyAsked } from './verdict.js';

/** A value of what is varied, and why the scenario makes no sense with it. */
export interface RefusedAt {
  readonly at: number;
  readonly message: string;
}

interface Settings {
  readonly ready: readonly { readonly at: number; readonly runnable: Runnable }[];
  readonly refused: readonly RefusedAt[];
}

/** One strategy at several values of something, each ready to run; those that the checks of a scenario refuse stand apart. */
export function settingsAt(
  asked: StrategyAsked,
  scenarios: Scenarios,
  values: readonly number[],
  changesAt: (value: number) => readonly Change[],
): Settings {
  const ready: { readonly at: number; readonly runnable: Runnable }[] = [];
  const refused: RefusedAt[] = [];
  for (const at of values) {
    const changes = [...asked.changes, ...changesAt(at)];
    try {
      ready.push({ at, runnable: scenarios.strategy({ ...asked, changes }, asked.strategy) });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      refused.push({ at, message: error.message });
    }
  }
  return { ready, refused };
}

/** What is varied, with so many campaigns at each of its values. */
export interface Varied<Point> {
  readonly done: number;
  readonly of: number;
  /** Ascending. */
  readonly points: readonly Point[];
  readonly refused: readonly RefusedAt[];
}

/** How a value is varied, and what is made of the campaigns at each. */
interface Course<Tried, Point> {
  /** Always tried, beside the person's own. */
  readonly values: readonly number[];
  readonly changesAt: (value: number) => readonly Change[];
  /** Campaigns at each value: the curve is there at once, and grows steady in a few rounds. */
  readonly rounds: readonly number[];
  /** Null where there is nothing to show yet. */
  readonly tryAt: (value: number, collected: Collector, round: number) => Tried | null;
  readonly pointsOf: (tried: readonly Tried[]) => readonly Point[];
}

/** The same campaigns at every value, with common random numbers. */
export async function* varied<Tried, Point>(
  asked: StrategyAsked & { readonly chosen: number },
  scenarios: Scenarios,
  { values, changesAt, rounds, tryAt, pointsOf }: Course<Tried, Point>,
): AsyncGenerator<Varied<Point>> {
  const campaigns = scenarios.campaigns(asked);
  const tried = [...new Set([...values, asked.chosen])].sort((a, b) => a - b);
  const { ready, refused } = settingsAt(asked, scenarios, tried, changesAt);
  const known = new Map<number, Tried>();
  for (const done of rounds) {
    for (const { at, runnable } of ready) {
      const one = tryAt(at, campaigns.upTo(runnable, done), done);
      if (one === null) continue;
      known.set(at, one);
      const points = pointsOf(ready.flatMap((each) => known.get(each.at) ?? []));
      yield await Promise.resolve({ done, of: rounds[rounds.length - 1], points, refused });
    }
  }
}
