import { breakEven } from '../../src/studies/breakeven/breakeven.js';
import type { LoadedScenario } from '../../src/scenario/load.js';
import { readVaried } from '../../src/analysis/vary/varied.js';
import { Count, type Figure, type Interval, type Truth } from './counts.js';
import { breaking, scene, seeded } from './scenes.js';

interface Case extends Pick<Truth, 'what' | 'value' | 'truth'> {
  readonly loaded: LoadedScenario;
  readonly vary: string;
}

const TRUTH = 'negative binomial and geometric: mean difference linear along the range';

interface Parts {
  readonly images: number;
  readonly broken: number;
  readonly prepare: number;
  readonly success: number;
}

/** Changes of a tip, in seconds. */
const [EXCHANGE, OFFSET] = [500, 100];

/** Known answer 4 of the model: two workflows that are equal but for the preparation and the time of a change of tip. */
function twoWays({ images, broken, prepare, success }: Parts): LoadedScenario {
  return scene({
    plan: { regions: images },
    tips: breaking(broken),
    workflows: {
      swap: { steps: { exchange: `${EXCHANGE} s` } },
      hop: { steps: { offset: `${OFFSET} s`, prepare: { fixed: `${prepare} s`, success } } },
    },
    strategies: ['swap', 'hop'].map((workflow) => ({ name: workflow, workflow })),
  });
}

/** Seconds that hop saves on changes, for each image. */
const savedPerImage = (broken: number) => ((EXCHANGE - OFFSET) * broken) / (1 - broken);

/** Where the plan is long enough for hop: between whole numbers of regions. The first look, 200 replications, is nearly always enough. */
function regions(): Case {
  const parts = { images: 2, broken: 0.5, prepare: 630, success: 0.9 };
  return {
    what: 'break-even in the number of regions',
    truth: TRUTH,
    value: parts.prepare / parts.success / savedPerImage(parts.broken),
    loaded: twoWays(parts),
    vary: 'plan.regions=1..3',
  };
}

/** How often the interval of a break-even holds the true one, each time with random numbers of its own. */
export function breakEvenCoverage(seed: string, repeats: number, onRepeat: () => void): readonly Figure[] {
  const { what, value, truth, loaded, vary } = regions();
  const varied = readVaried(loaded, vary);
  if (!varied.ok) throw new Error(varied.message);
  const count = new Count({ what, truth, value, nominal: 0.95, held: 'both sides' });
  const asked = { vary: varied.value, between: ['swap', 'hop'], measure: 'time' } as const;
  for (let repeat = 1; repeat <= repeats; repeat += 1) {
    const { lines } = breakEven(loaded, { ...seeded(`${seed} ${what} ${repeat}`), ...asked });
    count.add(theOnly(lines.flatMap(({ crossings }) => crossings)));
    onRepeat();
  }
  return [count.figure];
}

/** An answer other than one break-even holds nothing: it counts as an interval that lies above. */
function theOnly(crossings: readonly Interval[]): Interval {
  return crossings.length === 1 ? crossings[0] : { low: Infinity, high: Infinity };
}
