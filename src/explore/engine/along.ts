import { differenceIn, LEVEL } from '../../analysis/differences.js';
import { estimateIn, estimateOfMeasure } from '../../analysis/estimate.js';
import { applySettings, readVaried } from '../../analysis/vary/varied.js';
import { Collector } from '../../execution/collector.js';
import { runTo } from '../../execution/run-to.js';
import type { Work } from '../../execution/work.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { bonferroni, pairedInterval } from '../../statistics/interval.js';
import { MOST_CAMPAIGNS, tuneWork } from '../../studies/tune/tune.js';
import { type Along, type AlongPoint, rangeText, writtenIn } from './along-values.js';
import { formOf, type Slider } from './form.js';

const REPLICATIONS = 64;
const POINTS = 7;

/** Runs all strategies along the range of a value, with the random numbers of a seed; null where it has no range. */
export function* alongWork(loaded: LoadedScenario, seed: string, path: string): Work<Along | null> {
  const field = formOf(loaded)
    .groups.flatMap(({ fields }) => fields)
    .find((each) => each.path === path);
  const slider = field?.slider ?? null;
  if (slider === null) return null;
  const points: AlongPoint[] = [];
  for (const at of valuesOf(slider)) {
    const changed = applySettings(loaded, [[path, writtenIn(slider, at)]]);
    // A value beside it may not allow it.
    if (!changed.ok) continue;
    const { strategies } = changed.scenario;
    const collectors = strategies.map(() => new Collector());
    const experiment = { kind: 'strategies' as const, strategies };
    yield [runTo(REPLICATIONS, { experiment, seed, wants: {} }, collectors)];
    points.push({
      at,
      time: collectors.map(({ values }) => estimateOfMeasure('instrumentTime', values.instrumentTime)),
      yield: collectors.map(({ values }) => estimateOfMeasure('yield', values.yield)),
      difference: collectors.map(({ values }) =>
        estimateIn(
          differenceIn(
            'time',
            pairedInterval(
              values.instrumentTime,
              collectors[0].values.instrumentTime,
              bonferroni(LEVEL, valuesOf(slider).length),
            ),
          ),
        ),
      ),
    });
  }
  const names = loaded.strategies.map(({ name }) => name);
  const along = { path, slider, replications: REPLICATIONS, strategies: names, points, tuned: [] };
  // Nobody is free to choose what is plausible of a thing: of that there is a break-even, but no best value.
  return { ...along, isTuning: slider.isPlausible ? null : (followersIn(along).at(0) ?? null) };
}

/** The strategies of which the time hangs on the value. */
function followersIn({ strategies, points }: Pick<Along, 'strategies' | 'points'>): readonly string[] {
  return strategies.filter((_, place) => points.some(({ time }) => time[place].value !== points[0].time[place].value));
}

/** The best of the values for the strategy whose turn it is: least time at the yield that it has now, by the rules of `tune`. */
export function* tunedWork(loaded: LoadedScenario, along: Along): Work<Along> {
  const { isTuning: strategy, points, tuned } = along;
  if (strategy === null) return along;
  const varied = readVaried(loaded, rangeText(along), strategy);
  const found = varied.ok
    ? yield* tuneWork(
        loaded,
        {
          ...{ strategy, varied: [varied.value], goal: 'least-time', yieldAtLeast: null, hours: null },
          ...{ confidence: LEVEL, zone: null, maxCampaigns: MOST_CAMPAIGNS, draws: null },
        },
        { file: 'scenario.yaml', sha256: '', toolVersion: '' },
      )
    : varied;
  const followers = followersIn(along);
  return {
    ...along,
    isTuning: followers.at(followers.indexOf(strategy) + 1) ?? null,
    tuned: [
      ...tuned,
      found.ok
        ? {
            strategy,
            at: found.value.winner === null ? null : points[found.value.winner].at,
            said: found.value.answer.headline,
          }
        : { strategy, at: null, said: [found.message] },
    ],
  };
}

/** Values from one end to the other: by equal factors where a slider goes so. */
function valuesOf({ low, high, isByFactors, isWhole }: Slider): readonly number[] {
  const all = Array.from({ length: POINTS }, (_, place) => {
    const share = place / (POINTS - 1);
    const exact = isByFactors ? low * (high / low) ** share : low + share * (high - low);
    return isWhole ? Math.round(exact) : Number(exact.toPrecision(3));
  });
  return [...new Set(all)];
}
