import type { LuckTable } from '../chance/luck.js';
import { type LoadedScenario, type Strategy, withValue } from '../scenario/load.js';
import { pairedInterval } from '../statistics/interval.js';
import type { Collector } from './collector.js';
import { LEVEL, measureOf, type TimeMeasure } from './differences.js';
import { replicate, runnable } from './replicate.js';
import type { Difference, RegisterEntry, Turn } from './results.js';

/** Replications after which a difference that is far from zero is believed, and those that decide the rest. */
const FIRST = 50;
const LAST = 200;
/** Standard errors that count as far from zero at the first look. */
const FAR = 4;

/** What was compared, on which luck. */
export interface Compared {
  readonly loaded: LoadedScenario;
  readonly table: LuckTable;
  readonly collectors: readonly Collector[];
  readonly differences: readonly Difference[];
  readonly time: TimeMeasure;
}

/**
 * The register with what turns the verdict: each value that is only assumed is put to both ends of its range, and all
 * strategies that it touches are run again on the same luck. A difference told apart whose sign is the other one there
 * turns.
 */
export function registerWithTurns(
  compared: Compared,
  onProgress: (done: number, of: number) => void,
): readonly RegisterEntry[] {
  const { register } = compared.loaded;
  const tried = register.filter(({ standing, range }) => standing === 'assumed' && range !== null).length;
  let done = 0;
  return register.map(({ path, value, description, range, source, note, isDefault, standing }) => {
    const isTried = standing === 'assumed' && range !== null;
    const turns = isTried ? [range.low, range.high].flatMap((end) => turnsAt(compared, path, end)) : null;
    if (isTried) onProgress((done += 1), tried);
    return { path, value, description, range: range?.text ?? null, source, note, isDefault, standing, turns };
  });
}

type Told = Difference & { readonly measure: Turn['measure'] };

function isTold(difference: Difference): difference is Told {
  return difference.verdict !== 'not told apart' && difference.measure !== 'silentBadShare';
}

function turnsAt(compared: Compared, path: string, end: number | string): readonly Turn[] {
  const told = compared.differences.filter(isTold);
  const changed = withValue(compared.loaded, path, end);
  if (!changed.ok || told.length === 0) return [];
  const isTouched = changed.scenario.strategies.map(
    ({ settings }, i) => JSON.stringify(settings) !== JSON.stringify(compared.loaded.strategies[i].settings),
  );
  if (!isTouched.includes(true)) return [];
  const there = new EndRuns(compared, changed.scenario.strategies, isTouched);
  const open = told.filter((difference) => !there.isFarFromTurning(difference, FIRST));
  return open.flatMap((difference) => {
    const estimate = there.estimate(difference, LAST);
    if (estimate.value * difference.estimate.value >= 0) return [];
    return [
      {
        path,
        strategy: difference.strategy,
        measure: difference.measure,
        at: String(end),
        differenceHere: difference.estimate.value,
        differenceThere: estimate,
      },
    ];
  });
}

/** Replications of all strategies at one end of a range; those that the value does not touch are as they were. */
class EndRuns {
  private readonly names: readonly string[];
  private readonly values: readonly Readonly<Record<Turn['measure'], number[]>>[];
  private readonly strategies;
  private count = 0;

  constructor(
    private readonly compared: Compared,
    strategies: readonly Strategy[],
    private readonly isTouched: readonly boolean[],
  ) {
    this.strategies = runnable(strategies);
    this.names = strategies.map(({ name }) => name);
    this.values = strategies.map(() => ({ time: [], yield: [], tips: [], cost: [] }));
  }

  isFarFromTurning(difference: Told, replications: number): boolean {
    const { mean, standardDeviation, n } = this.interval(difference, replications);
    return mean * difference.estimate.value > 0 && Math.abs(mean) > (FAR * standardDeviation) / Math.sqrt(n);
  }

  estimate(difference: Told, replications: number) {
    const { mean, low, high } = this.interval(difference, replications);
    return { value: mean, low, high };
  }

  private interval(difference: Told, replications: number) {
    this.runTo(Math.min(replications, this.compared.collectors[0].count));
    const other = this.names.indexOf(difference.strategy);
    return pairedInterval(this.values[other][difference.measure], this.values[0][difference.measure], LEVEL);
  }

  private runTo(replications: number): void {
    const { collectors, time, table } = this.compared;
    for (; this.count < replications; this.count += 1) {
      this.strategies.forEach((strategy, i) => {
        const known = collectors[i].values;
        const outcome = this.isTouched[i] ? replicate(strategy, table, this.count + 1) : null;
        for (const measure of ['time', 'yield', 'tips', 'cost'] as const) {
          const name = measureOf(measure, time);
          this.values[i][measure].push(outcome === null ? known[name][this.count] : outcome[name]);
        }
      });
    }
  }
}
