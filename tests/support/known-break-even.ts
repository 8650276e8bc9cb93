import { readFileSync } from 'node:fs';
import type { LoadedScenario } from '../../src/scenario/load.js';
import type { Setting } from '../../src/scenario/ranges.js';
import type { Crossing } from '../../src/statistics/crossing.js';
import { Curve } from '../../src/analysis/vary/curve.js';
import { type Runnable, runnable } from '../../src/execution/replicate.js';
import { Runs } from '../../src/execution/runs.js';
import { Meter } from '../../src/execution/progress.js';
import { numbersAt } from '../../src/analysis/vary/axis.js';
import { applySettings, settingText } from '../../src/analysis/vary/varied.js';
import { resultOf } from './answered.js';
import { loadedOf } from './run.js';

/**
 * Known answer 4 of the model: two workflows equal but for preparation P and the time c of a change. Exact, for the takes
 * that fail before N images are good are negative binomial, with mean Np/(1-p), and the same in both.
 */
export const KNOWN = { prepare: 420, success: 0.8, breaks: 0.2, swap: 500, hop: 100 };
export const BREAK_EVEN =
  ((KNOWN.prepare / KNOWN.success) * (1 - KNOWN.breaks)) / (KNOWN.breaks * (KNOWN.swap - KNOWN.hop));

export const KNOWN_TEXT = readFileSync(new URL('./break-even.yaml', import.meta.url), 'utf8');

export function loadedFrom(text: string): LoadedScenario {
  return loadedOf(text);
}

const AXIS = { low: 1, high: 13, unit: '', isLog: false, isWhole: true };
/** Few replications, so that chance is large: what is tested is whether the interval owns up to it. */
const DEMAND = { from: 40, to: 80, halfWidth: 0.06, campaigns: Infinity };

/**
 * Looks for the break-even of known answer 4 again and again, each time with random numbers of its own, as the study does.
 * @returns how many intervals held the true one, how many lay wholly above or below it, and how often none was found
 */
export function repeatBreakEven(
  repetitions: number,
  seed: string,
): { held: number; above: number; below: number; none: number } {
  const loaded = loadedFrom(KNOWN_TEXT);
  const known = new Map<string, readonly Runnable[]>();
  const pairAt = (setting: Setting): readonly Runnable[] => {
    const found = known.get(settingText(setting));
    if (found !== undefined) return found;
    const applied = applySettings(loaded, [['plan.regions', setting]]);
    if (!applied.ok) throw new Error(applied.message);
    const pair = runnable(applied.scenario.strategies);
    known.set(settingText(setting), pair);
    return pair;
  };
  const count = { held: 0, above: 0, below: 0, none: 0 };
  for (let repetition = 1; repetition <= repetitions; repetition += 1) {
    const curve = new Curve(
      AXIS,
      'totalTime',
      (setting) => {
        const [first, second] = pairAt(setting).map((strategy) => new Runs(strategy, `${seed} ${repetition}`));
        return { first, second };
      },
      () => 0,
    );
    for (const share of [0, 0.5, 1]) curve.add(share);
    resultOf(curve.resolve(DEMAND, new Meter('', undefined)));
    count[judged(curve.found.crossings)] += 1;
  }
  return count;
}

function judged(crossings: readonly Crossing[]): 'held' | 'above' | 'below' | 'none' {
  if (crossings.length !== 1) return 'none';
  const [{ at, low, high }] = crossings;
  const found = numbersAt(AXIS, at, low, high);
  if (found.low > BREAK_EVEN) return 'above';
  return found.high < BREAK_EVEN ? 'below' : 'held';
}
