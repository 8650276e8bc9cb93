import { compare } from '../../src/studies/compare/compare.js';
import { difference, mean, type Watched } from './compare.js';
import { Count, type Figure } from './counts.js';
import { SCAN, scene, seeded } from './scenes.js';

/** One strategy has a lognormal time for setting up, the other for finding the place, so that their luck is not shared. */
const [MEDIAN, P90, LOCATE, LATER] = [600, 1200, 4900, 500];
const SPREAD = Math.log(P90 / MEDIAN) / 1.2815515655446004;
const LOGNORMAL = { usual: `${MEDIAN} s`, p90: `${P90} s` };
const LOADED = scene({
  workflows: { swap: { steps: { setUp: LOGNORMAL, locate: `${LOCATE} s` } } },
  strategies: [
    { name: 'first', workflow: 'swap' },
    {
      name: 'second',
      workflow: 'swap',
      set: { 'workflows.swap.steps.setUp': `${LOCATE + LATER} s`, 'workflows.swap.steps.locate': LOGNORMAL },
    },
  ],
});

const FIRST = SCAN + LOCATE + MEDIAN * Math.exp((SPREAD * SPREAD) / 2);
const TRUTH = 'lognormal';
const WATCHED: readonly Watched[] = [
  mean(0, 'totalTime', FIRST, TRUTH),
  mean(1, 'totalTime', FIRST + LATER, TRUTH),
  difference('totalTime', LATER, TRUTH),
];

/**
 * What stopping at the first look at which the difference is known to ±1 % does to intervals: at 200, 400, 800 … replications as it
 * comes, against one fixed number. The case stops at 400 or at 800 replications, by luck, so that the rule has a say.
 */
export function stoppingCoverage(
  seed: string,
  repeats: number,
  fixed: number,
  onRepeat: () => void,
): { readonly figures: readonly Figure[]; readonly stops: ReadonlyMap<number, number> } {
  const stops = new Map<number, number>();
  const counts = [true, false].flatMap((stopsItself) =>
    WATCHED.map(({ of, what, ...truth }) => ({
      of,
      stopsItself,
      count: new Count({
        ...truth,
        what: `${what}, ${stopsItself ? 'stopped when precise' : `${fixed} replications`}`,
        held: stopsItself ? 'shown' : 'both sides',
      }),
    })),
  );
  for (let repeat = 1; repeat <= repeats; repeat += 1) {
    for (const itself of [true, false]) {
      const options = seeded(`${seed} ${itself ? 'stopping' : 'fixed'} ${repeat}`);
      const result = compare(LOADED, itself ? options : { ...options, replications: fixed });
      for (const { of, stopsItself, count } of counts) if (stopsItself === itself) count.add(of(result));
      const { replications } = result.summary;
      if (itself) stops.set(replications, (stops.get(replications) ?? 0) + 1);
    }
    onRepeat();
  }
  return { figures: counts.map(({ count }) => count.figure), stops };
}
