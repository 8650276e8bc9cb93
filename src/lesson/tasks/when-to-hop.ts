import { ACTIVITY_NUMBER, type Activity } from '../../campaign/activities.js';
import { meanInterval } from '../../statistics/interval.js';
import { linearisedRatio } from '../../statistics/ratio.js';
import type { Collector } from '../../study/collector.js';
import { LEVEL } from '../../study/differences.js';
import type { Estimate } from '../../study/results.js';
import type { Change } from '../change.js';
import { curvesSpec } from '../charts/curves.js';
import { drawn } from '../picture.js';
import type { Scenarios } from '../task.js';
import { type RefusedAt, settingsAt } from './settings.js';
import type { StrategyAsked } from './verdict.js';

export interface WhenAsked extends StrategyAsked {
  /** Images after which a tip goes, ascending; the chosen number is among them. */
  readonly ages: readonly number[];
  readonly chosen: number;
  readonly width: number;
}

/** What a good image costs where every tip goes after so many images; seconds. */
export interface AtAge {
  readonly age: number;
  readonly perGood: Estimate;
  /** Part of it: scans that were not kept. */
  readonly lost: number;
  /** Part of it: from one tip to the next, with finding the place again. */
  readonly changing: number;
}

export interface WhenToHop {
  readonly done: number;
  readonly of: number;
  readonly points: readonly AtAge[];
  readonly refused: readonly RefusedAt[];
  readonly svg: string;
}

const ROUNDS = [20, 60, 200, 600];
const CHANGING: readonly Activity[] = ['exchanging', 'hopping', 'locating and relocating', 'warming up and settling'];

/** A tip goes after so many images at the latest, whatever it looks like. */
export function ageChanges(strategy: string, age: number): readonly Change[] {
  return [{ strategy, path: 'rules.after', value: `${age} ${age === 1 ? 'image' : 'images'}` }];
}

/** The same campaigns for every age at which tips are replaced, with common random numbers. */
export async function* whenToHop(asked: WhenAsked, scenarios: Scenarios): AsyncGenerator<WhenToHop> {
  const { strategy, ages } = asked;
  const { ready, refused } = settingsAt(asked, scenarios, ages, (age) => ageChanges(strategy, age));
  const campaigns = scenarios.campaigns(asked);
  const known = new Map<number, AtAge>();
  const of = ROUNDS[ROUNDS.length - 1];
  for (const round of ROUNDS) {
    for (const { at, runnable } of ready) {
      known.set(at, atAge(at, campaigns.upTo(runnable, round)));
      const points = [...known.values()].sort((a, b) => a.age - b.age);
      yield { done: round, of, points, refused, svg: await picture(points, asked) };
    }
  }
}

/** @param collected at least two campaigns */
export function atAge(age: number, collected: Collector): AtAge {
  const { values, split } = collected;
  const good = values.good.reduce((sum, each) => sum + each, 0);
  const { mean, low, high } = meanInterval(linearisedRatio(values.instrumentTime, values.good), LEVEL);
  const spentOn = (activity: Activity) => split[ACTIVITY_NUMBER[activity]];
  return {
    age,
    perGood: { value: mean, low, high },
    lost: spentOn('scanning lost') / good,
    changing: CHANGING.reduce((sum, activity) => sum + spentOn(activity), 0) / good,
  };
}

/** The age at which a good image takes least time. */
export function bestAge(points: readonly AtAge[]): AtAge {
  return points.reduce((least, each) => (each.perGood.value < least.perGood.value ? each : least), points[0]);
}

function picture(points: readonly AtAge[], { ages, chosen, width }: WhenAsked): Promise<string> {
  const plain = (value: number) => ({ value: value / 60, low: value / 60, high: value / 60 });
  const spec = curvesSpec({
    curves: [
      {
        title: 'Time for a good image (minutes)',
        points: points.map(({ age, perGood: { value, low, high } }) => ({
          ...{ at: age, value: value / 60, low: low / 60, high: high / 60 },
        })),
      },
      {
        title: 'of it: scans lost to spoiled tips (minutes)',
        points: points.map(({ age, lost }) => ({ at: age, ...plain(lost) })),
      },
      {
        title: 'of it: changing tips and finding the place again (minutes)',
        points: points.map(({ age, changing }) => ({ at: age, ...plain(changing) })),
      },
    ],
    axis: 'A tip is replaced after so many images',
    domain: [Math.min(...ages), Math.max(...ages)],
    chosen,
    width,
  });
  return drawn(spec, {
    prefix: 'when-picture',
    title: 'When to replace a tip',
    description:
      'Time for a good image against the number of images after which a tip is replaced, and two parts of it. The numbers are in the table below.',
  });
}
