import { ACTIVITY_NUMBER, type Activity } from '../../campaign/activities.js';
import { meanInterval } from '../../statistics/interval.js';
import { linearisedRatio } from '../../statistics/ratio.js';
import type { Collector } from '../../execution/collector.js';
import { LEVEL } from '../../analysis/differences.js';
import type { Estimate } from '../../statistics/estimate.js';
import type { Change } from '../change.js';
import type { Scenarios } from '../task.js';
import { type Varied, varied } from './settings.js';
import type { StrategyAsked } from './verdict.js';

export interface AgesAsked extends StrategyAsked {
  /** Images after which a tip goes, ascending. */
  readonly ages: readonly number[];
}

export interface WhenAsked extends AgesAsked {
  /** Tried beside them. */
  readonly chosen: number;
}

/** What a good image costs where every tip goes after so many images; seconds. */
export interface AtAge {
  readonly at: number;
  readonly perGood: Estimate;
  /** Part of it: scans that were not kept. */
  readonly lost: number;
  /** Part of it: from one tip to the next, with finding the place again. */
  readonly changing: number;
}

const ROUNDS = [20, 60, 200, 600];
const CHANGING: readonly Activity[] = ['exchanging', 'hopping', 'locating and relocating', 'warming up and settling'];

/** A tip goes after so many images at the latest, whatever it looks like. */
export function ageChanges(strategy: string, age: number): readonly Change[] {
  return [{ strategy, path: 'rules.after', value: `${age} ${age === 1 ? 'image' : 'images'}` }];
}

export function whenToHop(asked: WhenAsked, scenarios: Scenarios): AsyncGenerator<Varied<AtAge>> {
  return varied(asked, scenarios, {
    values: asked.ages,
    changesAt: (age) => ageChanges(asked.strategy, age),
    rounds: ROUNDS,
    tryAt: atAge,
    pointsOf: (tried) => tried,
  });
}

/** @param collected at least two campaigns */
export function atAge(at: number, collected: Collector): AtAge {
  const { values, split } = collected;
  const good = values.good.reduce((sum, each) => sum + each, 0);
  const { mean, low, high } = meanInterval(linearisedRatio(values.instrumentTime, values.good), LEVEL);
  const spentOn = (activity: Activity) => split[ACTIVITY_NUMBER[activity]];
  return {
    at,
    perGood: { value: mean, low, high },
    lost: spentOn('scanning lost') / good,
    changing: CHANGING.reduce((sum, activity) => sum + spentOn(activity), 0) / good,
  };
}
