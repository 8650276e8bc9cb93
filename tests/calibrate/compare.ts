import type { LoadedScenario } from '../../src/scenario/load.js';
import { pairedInterval } from '../../src/statistics/interval.js';
import { clopperPearson } from '../../src/statistics/proportion.js';
import { orderStatisticRanks } from '../../src/statistics/quantile.js';
import { compare } from '../../src/studies/compare/compare.js';
import type { Measure } from '../../src/execution/measures.js';
import type { ComparisonResult } from '../../src/analysis/results.js';
import { Count, type Figure, type Interval, type Truth } from './counts.js';
import { breaking, SCAN, scene, seeded } from './scenes.js';

const LEVEL = 0.95;

/** A true value, and the interval for it that a comparison gives. */
export interface Watched extends Truth {
  readonly of: (result: ComparisonResult) => Interval;
}

interface Case {
  readonly loaded: LoadedScenario;
  readonly watched: readonly Watched[];
}

/** Numbers of the first and the second strategy, and what is known of it. */
type Place = 0 | 1;

export function mean(place: Place, measure: Measure, value: number, truth: string): Watched {
  const what = `mean of ${measure}, strategy ${place + 1}`;
  const of = ({ summary }: ComparisonResult) => summary.strategies[place].measures[measure];
  return { what, truth, value, nominal: LEVEL, held: 'both sides', of };
}

/** The paired interval of the second less the first, unadjusted: `compare` widens what it shows for the number of comparisons. */
export function difference(measure: Measure, value: number, truth: string): Watched {
  const of = ({ summary, replications }: ComparisonResult) => {
    const rows = [...replications];
    const [first, second] = summary.strategies.map(({ name }) =>
      rows.filter(({ strategy }) => strategy === name).map(({ measures }) => measures[measure]),
    );
    return pairedInterval(second, first, LEVEL);
  };
  return { what: `difference of ${measure}`, truth, value, nominal: LEVEL, held: 'both sides', of };
}

/** The difference as `compare` shows it, at the level widened for the six measures that get a verdict. */
function shown(measure: 'time' | 'yield', value: number, truth: string): Watched {
  const of = ({ summary }: ComparisonResult) => {
    const found = summary.differences.find((one) => one.measure === measure);
    if (found === undefined) throw new Error(`no difference of ${measure}`);
    return found.estimate;
  };
  return { what: `difference of ${measure} as shown`, truth, value, nominal: 1 - 0.05 / 6, held: 'both sides', of };
}

function quantile(number: number, probability: number, value: number, truth: string, replications: number): Watched {
  const of = ({ summary }: ComparisonResult) => summary.strategies[0].measures.totalTime.quantiles[number];
  const nominal = orderStatisticRanks(replications, probability, LEVEL).coverage ?? LEVEL;
  return { what: `quantile ${probability} of totalTime`, truth, value, nominal, held: 'both sides', of };
}

/** The chance that an interval of Clopper and Pearson holds the true one: a sum over all that can come. */
function exactCoverage(chance: number, trials: number): number {
  let [coverage, weight] = [0, Math.pow(1 - chance, trials)];
  for (let count = 0; count <= trials; count += 1) {
    const { low, high } = clopperPearson(count, trials, LEVEL);
    if (low <= chance && chance <= high) coverage += weight;
    weight *= ((trials - count) / (count + 1)) * (chance / (1 - chance));
  }
  return coverage;
}

/**
 * Known answers 1 and 4 of the model: takes that fail before all images are good are negative binomial (W. Feller, An
 * Introduction to Probability Theory and Its Applications, vol. 1, VI.8), tries of a preparation geometric.
 */
function breakingTips(): Case {
  const [images, broken, exchange, offset, prepare, success] = [2, 0.3, 500, 100, 300, 0.8];
  const failed = (images * broken) / (1 - broken);
  const prepared = prepare / success;
  const loaded = scene({
    plan: { regions: images },
    tips: breaking(broken),
    workflows: {
      swap: { steps: { exchange: `${exchange} s` } },
      hop: { steps: { offset: `${offset} s`, prepare: { fixed: `${prepare} s`, success } } },
    },
    strategies: ['swap', 'hop'].map((workflow) => ({ name: workflow, workflow })),
  });
  const [takes, all] = ['negative binomial', 'negative binomial and geometric'];
  const gain = prepared - failed * (exchange - offset);
  return {
    loaded,
    watched: [
      mean(0, 'takes', images + failed, takes),
      mean(0, 'tips', 1 + failed, takes),
      mean(0, 'totalTime', SCAN * (images + failed) + exchange * failed, takes),
      mean(1, 'totalTime', prepared + SCAN * (images + failed) + offset * failed, all),
      difference('totalTime', gain, all),
      shown('time', gain, all),
    ],
  };
}

/**
 * Every image has a fresh tip, which it breaks with a chance p; half of the broken ones are noticed. Images are independent, so
 * their fates are multinomial. The second strategy takes a noticed one once more.
 */
function attempts(): Case {
  const [images, p, seen] = [3, 0.4, 0.5];
  const loaded = scene({
    plan: { regions: images },
    tips: breaking(p),
    noticing: { review: { sensitivity: seen }, attempts: 1 },
    rules: { after: '1 image' },
    strategies: [
      { name: 'once', workflow: 'swap' },
      { name: 'twice', workflow: 'swap', set: { 'noticing.attempts': 2 } },
    ],
  });
  const truth = 'multinomial';
  const again = p * seen;
  return {
    loaded,
    watched: [
      mean(0, 'yield', 1 - p, truth),
      mean(0, 'undetectedBadShare', p * (1 - seen), truth),
      mean(1, 'yield', (1 - p) * (1 + again), truth),
      mean(1, 'takes', images * (1 + again), truth),
      difference('yield', (1 - p) * again, truth),
      difference('undetectedBadShare', p * (1 - seen) * again, truth),
      shown('yield', (1 - p) * again, truth),
    ],
  };
}

/**
 * One image whose setting up has a lognormal time, known by its median and 90th percentile; the second strategy has a
 * triangular time more with common random numbers.
 */
function lognormalTime(replications: number): Case {
  const [median, p90, least, most] = [600, 900, 100, 500];
  const spread = Math.log(p90 / median) / 1.2815515655446004;
  const granted = SCAN + p90;
  const loaded = scene({
    workflows: { swap: { steps: { setUp: { usual: `${median} s`, p90: `${p90} s` } } } },
    bookings: { allocation: `${granted / 3600} h` },
    strategies: [
      { name: 'first', workflow: 'swap' },
      {
        name: 'second',
        workflow: 'swap',
        set: { 'workflows.swap.steps.locate': { min: `${least} s`, mode: `${least} s`, max: `${most} s` } },
      },
    ],
  });
  const [distribution, triangle] = ['lognormal', 'triangular'];
  const within: Watched = {
    ...{ what: 'chance of finishing within the granted time', truth: distribution, value: 0.9, held: 'both sides' },
    nominal: exactCoverage(0.9, replications),
    of: ({ summary }) => summary.strategies[0].withinAllocation ?? { low: null, high: null },
  };
  return {
    loaded,
    watched: [
      mean(0, 'totalTime', SCAN + median * Math.exp((spread * spread) / 2), distribution),
      quantile(0, 0.1, SCAN + (median * median) / p90, distribution, replications),
      quantile(1, 0.5, SCAN + median, distribution, replications),
      quantile(2, 0.9, SCAN + p90, distribution, replications),
      within,
      difference('totalTime', (2 * least + most) / 3, triangle),
    ],
  };
}

const CASES: readonly ((replications: number) => Case)[] = [breakingTips, attempts, lognormalTime];

/** How often intervals of `compare` hold the truth, each time with random numbers of their own. */
export function compareCoverage(
  seed: string,
  repeats: number,
  replications: number,
  onRepeat: () => void,
): readonly Figure[] {
  return CASES.flatMap((caseOf, number) => {
    const { loaded, watched } = caseOf(replications);
    const counts = watched.map(({ of, ...truth }) => ({ of, count: new Count(truth) }));
    for (let repeat = 1; repeat <= repeats; repeat += 1) {
      const result = compare(loaded, { ...seeded(`${seed} ${number} ${repeat}`), replications });
      for (const { of, count } of counts) count.add(of(result));
      onRepeat();
    }
    return counts.map(({ count }) => count.figure);
  });
}
