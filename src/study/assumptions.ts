import type { LuckTable } from '../chance/luck.js';
import type { LoadedScenario } from '../scenario/load.js';
import type { Written, WrittenRange } from '../scenario/ranges.js';
import type { RegisterValue } from '../scenario/register.js';
import { unknownInputs } from '../scenario/uncertainty.js';
import { withEnd } from '../scenario/with-end.js';
import { pairedInterval } from '../statistics/interval.js';
import type { Collector } from './collector.js';
import { LEVEL, measureOf, type TimeMeasure } from './differences.js';
import { changedBy } from './estimate.js';
import { replicate, type Runnable, runnable } from './replicate.js';
import type { Difference, Estimate, RegisterEntry, Turn } from './results.js';
import { whatCounts } from './what-counts.js';

/** Replications at which the change that an end of a range makes is looked at; the last look decides what is still open. */
const LOOKS = [16, 32, 64, 128];
/** Half-widths from zero at which a difference is believed before the last look: about four standard errors. */
const FAR = 2;

/** What was compared, on which luck. */
export interface Compared {
  readonly loaded: LoadedScenario;
  readonly strategies: readonly Runnable[];
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
  const { register, raw } = compared.loaded;
  const here = standing(compared);
  // What carries an uncertainty is drawn from it, so its ends are not tried a second time.
  const drawn = new Set(unknownInputs(raw).flatMap(({ parameters }) => parameters.map(({ path }) => path)));
  const isOpen = ({ path, standing }: RegisterValue) => standing === 'assumed' && !drawn.has(path);
  const tried = register.filter((value) => isOpen(value) && value.range !== null).length;
  let done = 0;
  return register.map((value) => {
    const { range, ...shown } = value;
    const isTried = isOpen(value) && range !== null;
    const turns = isTried ? bothEnds(here, value, range) : null;
    if (isTried) onProgress((done += 1), tried);
    return { ...shown, range: range?.text ?? null, turns };
  });
}

/** What all ends of all ranges are held against. */
interface Here extends Compared {
  readonly told: readonly Told[];
  /** By strategy, what its campaigns depend on. */
  readonly counts: readonly string[];
}

function standing(compared: Compared): Here {
  const { collectors, differences, strategies, time } = compared;
  const told = differences.filter(isTold).map((difference): Told => {
    const other = strategies.findIndex(({ name }) => name === difference.strategy);
    const name = measureOf(difference.measure, time);
    const { halfWidth } = pairedInterval(collectors[other].values[name], collectors[0].values[name], LEVEL);
    return { ...difference, other, halfWidth };
  });
  return { ...compared, told, counts: strategies.map(whatCounts) };
}

/** What turns at either end; null where an end is no scenario, because a value beside it does not allow it. */
function bothEnds(here: Here, value: RegisterValue, { low, high }: WrittenRange): readonly Turn[] | null {
  const ends = [low, high].map((end) => turnsAt(here, value, end));
  return ends.includes(null) ? null : ends.flatMap((turns) => turns ?? []);
}

type ToldApart = Difference & { readonly measure: Turn['measure'] };

/** A difference told apart, the place of its strategy, and its half-width before Bonferroni. */
type Told = ToldApart & { readonly other: number; readonly halfWidth: number };

function isTold(difference: Difference): difference is ToldApart {
  return difference.verdict !== 'not told apart' && difference.measure !== 'silentBadShare';
}

function turnsAt(here: Here, value: RegisterValue, end: Written): readonly Turn[] | null {
  const changed = withEnd(here.loaded, value, end);
  if (!changed.ok) return null;
  if (here.told.length === 0) return [];
  const strategies = runnable(changed.scenario.strategies);
  const isTouched = strategies.map((strategy, i) => whatCounts(strategy) !== here.counts[i]);
  if (!isTouched.includes(true)) return [];
  const there = new EndRuns(here, strategies, isTouched);
  return here.told.flatMap((difference) => {
    const estimate = there.estimate(difference);
    if (estimate.value * difference.estimate.value >= 0) return [];
    const { strategy, measure } = difference;
    return [
      {
        path: value.path,
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

type Values = Readonly<Record<Turn['measure'], number[]>>;

/** Replications of all strategies at one end of a range, as many as each needs; those not touched are as they were. */
class EndRuns {
  private readonly values: readonly Values[];

  constructor(
    private readonly here: Compared,
    private readonly strategies: readonly Runnable[],
    private readonly isTouched: readonly boolean[],
  ) {
    this.values = strategies.map(() => ({ time: [], yield: [], tips: [], cost: [] }));
  }

  /**
   * The difference at this end: the one found before, plus the mean change that the end makes to it on the same luck. As
   * many replications as it takes to know its sign, or those of the last look.
   */
  estimate({ other, measure, estimate: before, halfWidth: known }: Told): Estimate {
    const { collectors } = this.here;
    for (let look = 0; ; look += 1) {
      const replications = Math.min(LOOKS[look], collectors[0].count);
      this.runTo(0, replications);
      this.runTo(other, replications);
      const changes = Array.from(
        { length: replications },
        (_, i) => this.changeOf(other, measure, i) - this.changeOf(0, measure, i),
      );
      const { value, halfWidth, low, high } = changedBy({ value: before.value, halfWidth: known }, changes);
      const isLast = look === LOOKS.length - 1 || replications < LOOKS[look];
      if (isLast || Math.abs(value) > FAR * halfWidth) return { value, low, high };
    }
  }

  /** What the end changes in one replication of a strategy. */
  private changeOf(index: number, measure: Turn['measure'], replication: number): number {
    const { collectors, time } = this.here;
    return this.values[index][measure][replication] - collectors[index].values[measureOf(measure, time)][replication];
  }

  private runTo(index: number, replications: number): void {
    const { collectors, time, table } = this.here;
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
