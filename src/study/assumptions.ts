import { compileModel } from '../campaign/model.js';
import type { LuckTable } from '../chance/luck.js';
import type { LoadedScenario, Strategy } from '../scenario/load.js';
import type { Written, WrittenRange } from '../scenario/ranges.js';
import type { RegisterValue } from '../scenario/register.js';
import { withEnd } from '../scenario/with-end.js';
import { meanInterval, pairedInterval } from '../statistics/interval.js';
import type { Collector } from './collector.js';
import { LEVEL, measureOf, type TimeMeasure } from './differences.js';
import { replicate, type Runnable, runnable } from './replicate.js';
import type { Difference, Estimate, RegisterEntry, Turn } from './results.js';

/** Replications at which the change that an end of a range makes is looked at; the last look decides what is still open. */
const LOOKS = [16, 32, 64, 128];
/** Half-widths from zero at which a difference is believed before the last look: about four standard errors. */
const FAR = 2;

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
  return register.map((value) => {
    const { range, ...shown } = value;
    const isTried = value.standing === 'assumed' && range !== null;
    const turns = isTried ? bothEnds(compared, value, range) : null;
    if (isTried) onProgress((done += 1), tried);
    return { ...shown, range: range?.text ?? null, turns };
  });
}

/** What turns at either end; null where an end is no scenario, because a value beside it does not allow it. */
function bothEnds(compared: Compared, value: RegisterValue, { low, high }: WrittenRange): readonly Turn[] | null {
  const ends = [low, high].map((end) => turnsAt(compared, value, end));
  return ends.includes(null) ? null : ends.flatMap((turns) => turns ?? []);
}

type Told = Difference & { readonly measure: Turn['measure'] };

function isTold(difference: Difference): difference is Told {
  return difference.verdict !== 'not told apart' && difference.measure !== 'silentBadShare';
}

function turnsAt(compared: Compared, value: RegisterValue, end: Written): readonly Turn[] | null {
  const { path } = value;
  const told = compared.differences.filter(isTold);
  const changed = withEnd(compared.loaded, value, end);
  if (!changed.ok) return null;
  if (told.length === 0) return [];
  const isTouched = changed.scenario.strategies.map(
    (strategy, i) => whatCounts(strategy) !== whatCounts(compared.loaded.strategies[i]),
  );
  if (!isTouched.includes(true)) return [];
  const there = new EndRuns(compared, changed.scenario.strategies, isTouched);
  return told.flatMap((difference) => {
    const estimate = there.estimate(difference);
    if (estimate.value * difference.estimate.value >= 0) return [];
    const { strategy, measure } = difference;
    return [
      {
        path,
        strategy,
        measure,
        at: String(end),
        differenceHere: difference.estimate.value,
        differenceThere: estimate,
        isReversed: estimate.low > 0 || estimate.high < 0,
      },
    ];
  });
}

/**
 * Everything that a strategy's campaigns depend on, as text to be compared: not the steps of another workflow, nor what is
 * only said, nor the acceleration of a hazard or a remedy where it comes to nothing.
 */
function whatCounts({ workflow, settings }: Strategy): string {
  const { plan, tips, workflows, noticing, rules, stock, pace, instruments, operators, bookings, costs } = settings;
  const { cleanFirst, recondition } = rules;
  const exposures = compileModel(workflow, settings).kinds.map(({ hazards }) =>
    hazards.map(({ exposure }) => exposure),
  );
  return JSON.stringify({
    ...{ plan, noticing, stock, pace, instruments, operators, bookings, costs, exposures },
    tips: Object.values(tips).map((kind) => ({
      ...kind,
      hazards: kind.hazards.map((hazard) => ({ ...hazard, acceleration: null })),
    })),
    own: workflows[workflow],
    rules: {
      ...rules,
      cleanFirst: cleanFirst.tries > 0 ? cleanFirst : null,
      recondition: recondition.tries > 0 ? recondition : null,
    },
  });
}

type Values = Readonly<Record<Turn['measure'], number[]>>;

/** Replications of all strategies at one end of a range, as many as each needs; those not touched are as they were. */
class EndRuns {
  private readonly names: readonly string[];
  private readonly values: readonly Values[];
  private readonly strategies: readonly Runnable[];

  constructor(
    private readonly compared: Compared,
    strategies: readonly Strategy[],
    private readonly isTouched: readonly boolean[],
  ) {
    this.strategies = runnable(strategies);
    this.names = strategies.map(({ name }) => name);
    this.values = strategies.map(() => ({ time: [], yield: [], tips: [], cost: [] }));
  }

  /**
   * The difference at this end: the one found before, plus the mean change that the end makes to it on the same luck
   * (a control variate: what the value hardly touches, it hardly changes). As many replications as it takes to know its
   * sign, or those of the last look.
   */
  estimate({ strategy, measure, estimate: here }: Told): Estimate {
    const other = this.names.indexOf(strategy);
    const { collectors, time } = this.compared;
    const name = measureOf(measure, time);
    const known = pairedInterval(collectors[other].values[name], collectors[0].values[name], LEVEL).halfWidth;
    for (let look = 0; ; look += 1) {
      const replications = Math.min(LOOKS[look], collectors[0].count);
      this.runTo(0, replications);
      this.runTo(other, replications);
      const changes = meanInterval(
        Array.from({ length: replications }, (_, i) => this.changeOf(other, measure, i) - this.changeOf(0, measure, i)),
        LEVEL,
      );
      const value = here.value + changes.mean;
      const halfWidth = Math.sqrt(changes.halfWidth * changes.halfWidth + known * known);
      const isLast = look === LOOKS.length - 1 || replications < LOOKS[look];
      if (isLast || Math.abs(value) > FAR * halfWidth)
        return { value, low: value - halfWidth, high: value + halfWidth };
    }
  }

  /** What the end changes in one replication of a strategy. */
  private changeOf(index: number, measure: Turn['measure'], replication: number): number {
    const { collectors, time } = this.compared;
    return this.values[index][measure][replication] - collectors[index].values[measureOf(measure, time)][replication];
  }

  private runTo(index: number, replications: number): void {
    const { collectors, time, table } = this.compared;
    const values = this.values[index];
    for (let done = values.time.length; done < replications; done += 1) {
      const outcome = this.isTouched[index] ? replicate(this.strategies[index], table, done + 1) : null;
      for (const measure of ['time', 'yield', 'tips', 'cost'] as const) {
        const name = measureOf(measure, time);
        values[measure].push(outcome === null ? collectors[index].values[name][done] : outcome[name]);
      }
    }
  }
}
