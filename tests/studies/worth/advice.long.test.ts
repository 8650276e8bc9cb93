import { describe, expect, it } from 'vitest';
import { LuckTable, PURPOSES } from '../../../src/chance/luck.js';
import { normalQuantile } from '../../../src/chance/normal.js';
import { runInProcess } from '../../../src/execution/in-process.js';
import { loadScenario } from '../../../src/scenario/load.js';
import { worthWork } from '../../../src/studies/worth/worth.js';
import { sourced } from '../../support/sourced.js';

/** What a lab knows of a step's time: the logarithm of its median in minutes is normal. */
interface Known {
  readonly mean: number;
  readonly sd: number;
}
type Belief = Readonly<Record<string, Known>>;

/** Spread of a single time about its median, on the scale of logarithms, and its 90th percentile as a factor; no median may lie above that. */
const SPREAD = 0.72;
const P90 = Math.exp(SPREAD * normalQuantile(0.9));
/** Middle 95 % of a normal, in standard deviations to either side. */
const WIDE = normalQuantile(0.975);

const around = (median: number, factor: number): Known => ({ mean: Math.log(median), sd: Math.log(factor) / WIDE });
const mean = ({ mean: middle, sd }: Known) => Math.exp(middle + (sd * sd + SPREAD * SPREAD) / 2);
const OFFSET = mean(around(60, 2.4));

/** Twelve steps of which little is known. One of them decides; the others take about a minute, and are the same in both or nearly. */
const PRIOR: Belief = {
  'swap.exchange': around(60, 2.4),
  'swap.setUp': around(5, 2),
  'swap.warmUp': around(5, 2),
  'swap.locate': around(5, 2),
  'swap.retract': around(1, 2),
  'swap.align': around(1, 2),
  'swap.resonance': around(1, 2),
  'swap.approach': around(1, 2),
  'hop.retract': around(1, 2),
  'hop.approach': around(1, 2),
  'hop.resonance': around(1, 2),
  'hop.coarseMove': around(1, 2),
};
const STEPS = Object.keys(PRIOR);
const CHANGES = 3;

const pathOf = (step: string) => `workflows.${step.replace('.', '.steps.')}`;

/** Four images, each on a new tip. What is not uncertain has a source. */
function scenarioOf(belief: Belief): string {
  const usual = (step: string) => {
    const median = Math.exp(belief[step].mean);
    return `${step.slice(step.indexOf('.') + 1)}: { usual: ${median.toFixed(4)} min, p90: ${(median * P90).toFixed(4)} min }`;
  };
  const stepsOf = (workflow: string) => STEPS.filter((step) => step.startsWith(`${workflow}.`)).map(usual);
  const shared = ['setUp', 'warmUp', 'locate'].map((step) => usual(`swap.${step}`));
  const range = (step: string) => {
    const { mean: middle, sd } = belief[step];
    const [low, high] = [middle - WIDE * sd, middle + WIDE * sd].map((end) => Math.exp(end).toFixed(4));
    return [`${pathOf(step)}.usual`, `[${low} min, ${high} min]`] as const;
  };
  const swap = [...stepsOf('swap'), 'relocate: { fixed: 0 min, success: 1 }', 'settle: 0 min'];
  const hop = [
    ...stepsOf('hop'),
    ...shared,
    `offset: ${OFFSET.toFixed(4)} min`,
    'prepare: { fixed: 0 min, success: 1 }',
    'settle: 0 min',
    'register: { fixed: 0 min, success: 1 }',
  ];
  const twins = ['setUp', 'warmUp', 'locate'].map((step) => `hop.${step}`);
  const assumed = [...STEPS, ...twins].map(pathOf);
  return `title: Four images
plan: { regions: 4, passes: [{ name: islands, tip: sharp, size: 1 um, lines: 64 }] }
tips: { sharp: { hazards: [] } }
rules: { after: 1 image }
noticing: { review: { by: nobody } }
workflows:
  swap: { mishandling: { probability: 0 }, steps: { ${swap.join(', ')} } }
  hop:
    mishandling: { probability: 0 }
    specimenLoss: 0
    chip: { sites: { sharp: 20 }, dead: { sharp: 0 } }
    steps: { ${hop.join(', ')} }
strategies: [{ name: swap by hand, workflow: swap }, { name: hop, workflow: hop }]
${sourced(assumed, Object.fromEntries(STEPS.map(range)))}`;
}

/** Minutes by which hop takes less on average, were these the means of the steps: the same by hand. */
function saved(minutes: (step: string) => number): number {
  const swap = ['exchange', 'retract', 'align', 'resonance', 'approach'].map((step) => minutes(`swap.${step}`));
  const hop = [OFFSET, ...['retract', 'approach', 'resonance'].map((step) => minutes(`hop.${step}`))];
  const sum = (values: readonly number[]) => values.reduce((all, each) => all + each, 0);
  return CHANGES * (sum(swap) - sum(hop)) + minutes('swap.approach') - minutes('hop.approach');
}

/** Ten more timings, the mean of whose logarithms is this: a normal prior and normal readings, in closed form. */
function updated(belief: Belief, step: string, reading: number, timings: number): Belief {
  const { mean: middle, sd } = belief[step];
  const [before, more] = [1 / (sd * sd), timings / (SPREAD * SPREAD)];
  return {
    ...belief,
    [step]: { mean: (before * middle + more * reading) / (before + more), sd: 1 / Math.sqrt(before + more) },
  };
}

/** The step that `worth` would time first, as its answer says; null where it says to choose with what is known. */
function advised(belief: Belief, seed: string): string | null {
  const reading = loadScenario(scenarioOf(belief));
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  const options = { file: 'a.yaml', sha256: '0', toolVersion: '0', draws: 200, seed };
  const { answer, values } = runInProcess(worthWork(reading.scenario, options));
  const name = /“(.+)” first: worth/u.exec(answer.headline[0])?.[1];
  const path = values.find(({ description, isGroup }) => description === name && !isGroup)?.path;
  return path === undefined ? null : path.replace(/^workflows\.(\w+)\.steps\.(\w+)\.usual$/u, '$1.$2');
}

const LABS = 100;
const ROUNDS = 5;
const TIMINGS = 10;

describe('a lab that times first what worth advises', () => {
  it('ends with the better choice more often than one that times steps at random', () => {
    let [onlyAdvised, onlyRandom, right] = [0, 0, 0];
    const begin = Array.from({ length: 5 }, (_, seed) => advised(PRIOR, `begin ${seed}`));
    for (let lab = 0; lab < LABS; lab += 1) {
      const luck = new LuckTable('labs').replication(lab);
      const normal = (what: number, step: number, round: number) =>
        normalQuantile(luck.uniform(PURPOSES.stepTime, what, step, round, 0));
      const truth = Object.fromEntries(
        STEPS.map((step, i) => [step, PRIOR[step].mean + PRIOR[step].sd * normal(0, i, 0)]),
      );
      const better = saved((step) => Math.exp(truth[step] + (SPREAD * SPREAD) / 2)) > 0;
      const timed = (belief: Belief, step: string, round: number, who: number) => {
        const error = (SPREAD / Math.sqrt(TIMINGS)) * normal(1 + who, STEPS.indexOf(step), round);
        return updated(belief, step, truth[step] + error, TIMINGS);
      };
      let [guided, random] = [PRIOR, PRIOR];
      for (let round = 0; round < ROUNDS; round += 1) {
        const step = round === 0 ? begin[lab % begin.length] : advised(guided, `lab ${lab} ${round}`);
        if (step === null) break;
        guided = timed(guided, step, round, 0);
      }
      for (let round = 0; round < ROUNDS; round += 1) {
        const place = Math.floor(STEPS.length * luck.uniform(PURPOSES.stepTime, 3, 0, round, 0));
        random = timed(random, STEPS[place], round, 1);
      }
      const [byAdvice, byChance] = [guided, random].map((belief) => saved((step) => mean(belief[step])) > 0 === better);
      right += byAdvice ? 1 : 0;
      onlyAdvised += byAdvice && !byChance ? 1 : 0;
      onlyRandom += byChance && !byAdvice ? 1 : 0;
    }
    // Sign test: were the advice worth nothing, as many or more of the pairs that differ would be in its favour with this chance.
    const pairs = onlyAdvised + onlyRandom;
    let [chance, term] = [0, 0.5 ** pairs];
    for (let k = 0; k <= pairs; k += 1) {
      if (k >= onlyAdvised) chance += term;
      term *= (pairs - k) / (k + 1);
    }
    expect(chance, `${onlyAdvised} against ${onlyRandom} of ${LABS}`).toBeLessThan(1e-6);
    expect(right / LABS).toBeGreaterThan(0.85);
  });
});
