import { orderStatisticRanks } from '../../src/statistics/quantile.js';
import { budget } from '../../src/studies/budget/budget.js';
import type { Asked, BudgetResult, Request } from '../../src/studies/budget/results.js';
import { Count, type Figure, type Interval } from './counts.js';
import { breaking, SCAN, scene, seeded } from './scenes.js';

const LEVEL = 0.95;

/** What is asked for at one chance, as an interval for the quantile that it bounds. */
function askedAt(chance: number, of: (request: Request) => Asked | undefined): (result: BudgetResult) => Interval {
  return ({ strategies: [{ requests }] }) => {
    const asked = requests.filter((request) => request.chance === chance).map(of)[0];
    if (asked === undefined) throw new Error(`nothing is asked at ${chance}`);
    return { low: asked.low, high: asked.ask };
  };
}

/** Standard normal quantiles; tables of the normal distribution. */
const NORMAL = [
  [0.5, 0],
  [0.8, 0.8416212335729143],
  [0.9, 1.2815515655446004],
  [0.95, 1.6448536269514722],
] as const;

/** The time that suffices with a chance, of one image whose setting up is lognormal. */
function lognormalTime(replications: number) {
  const [median, p90] = [600, 1200];
  const spread = Math.log(p90 / median) / 1.2815515655446004;
  return {
    loaded: scene({
      workflows: { swap: { steps: { setUp: { usual: `${median} s`, p90: `${p90} s` } } } },
      strategies: [{ name: 'only', workflow: 'swap' }],
    }),
    counts: NORMAL.map(([chance, deviate]) => ({
      of: askedAt(chance, ({ time }) => time),
      count: new Count({
        what: `time for a chance of ${chance}`,
        truth: 'lognormal',
        value: SCAN + median * Math.exp(spread * deviate),
        nominal: orderStatisticRanks(replications, chance, LEVEL).coverage ?? LEVEL,
        held: 'not below',
      }),
    })),
  };
}

/** The tips that suffice with a chance: one more than takes that fail before two images are good, which are negative binomial. */
function tipsNeeded() {
  const broken = 0.3;
  return {
    loaded: scene({
      plan: { regions: 2 },
      tips: breaking(broken),
      strategies: [{ name: 'only', workflow: 'swap' }],
    }),
    counts: NORMAL.map(([chance]) => ({
      of: askedAt(chance, ({ items }) => items[0]),
      count: new Count({
        what: `tips for a chance of ${chance}`,
        truth: 'negative binomial',
        value: tipsFor(chance, broken),
        nominal: LEVEL,
        held: 'not below',
      }),
    })),
  };
}

/** The least number of tips that suffices with a chance: P(k fail before two are good) = (k + 1) q² p^k. */
function tipsFor(chance: number, broken: number): number {
  let [failed, sum] = [0, (1 - broken) ** 2];
  while (sum < chance) {
    failed += 1;
    sum += (failed + 1) * (1 - broken) ** 2 * broken ** failed;
  }
  return 1 + failed;
}

/** How often what `budget` asks for encloses the quantile that it is to bound, each time with random numbers of its own. */
export function budgetCoverage(
  seed: string,
  repeats: number,
  replications: number,
  onRepeat: () => void,
): readonly Figure[] {
  return [lognormalTime(replications), tipsNeeded()].flatMap(({ loaded, counts }, number) => {
    for (let repeat = 1; repeat <= repeats; repeat += 1) {
      const result = budget(loaded, { ...seeded(`${seed} ${number} ${repeat}`), replications });
      for (const { of, count } of counts) count.add(of(result));
      onRepeat();
    }
    return counts.map(({ count }) => count.figure);
  });
}
