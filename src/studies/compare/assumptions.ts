import type { LoadedScenario } from '../../scenario/load.js';
import type { Written, WrittenRange } from '../../scenario/ranges.js';
import type { RegisterValue } from '../../scenario/register.js';
import { withEnd } from '../../scenario/ends.js';
import { bonferroni, pairedInterval } from '../../statistics/interval.js';
import { less } from '../../statistics/numbers.js';
import type { StudyOptions } from '../../analysis/about.js';
import type { Campaigns, Collector } from '../../execution/collector.js';
import { comparisons, differenceIn, LEVEL, valuesOf, verdictIn } from '../../analysis/differences.js';
import { changedBy } from '../../analysis/estimate.js';
import type { Estimate } from '../../statistics/estimate.js';
import type { Assumption, Difference, Reversal } from '../../analysis/results.js';
import { type Runnable, runnable } from '../../execution/replicate.js';
import { Runs } from '../../execution/runs.js';
import { whatCounts } from '../../execution/what-counts.js';
import { Meter } from '../../execution/progress.js';
import { completed, together, type Work } from '../../execution/work.js';

/**
 * Replications at which the change that an end of a range makes is looked at. What is still open at the last look weakens; with
 * few of them, that would only say how few they were.
 */
const LOOKS = [16, 32, 64, 128, 256, 512];
/** The look at which what has changed nothing so far is taken to change nothing: a change in 5 % of campaigns is then missed in 4 % of cases. */
const UNMET = 2;
/** Half-widths from zero at which a difference is believed before the last look: about four standard errors. */
const FAR = 1.5;

/** Images of the strategies that are ready to be run at once: each takes a few hundred bytes. */
const MOST_IMAGES = 100_000;

/** What was compared, on which luck. */
export interface Compared {
  readonly loaded: LoadedScenario;
  readonly strategies: readonly Runnable[];
  /** Of the luck. */
  readonly seed: string;
  readonly collectors: readonly Collector[];
  readonly differences: readonly Difference[];
}

/**
 * The register with what reverses or weakens a clear difference: each value that is only assumed is put to both limits of
 * its range, and all strategies that it touches are run again with common random numbers. A difference reverses where it is
 * clear the other way there, and weakens where its interval includes 0.
 */
export function* assumptionsTried(
  compared: Compared,
  onProgress: StudyOptions['onProgress'],
): Work<readonly Assumption[]> {
  const { register } = compared.loaded;
  const isOpen = openIn(compared.loaded);
  const fewest = compared.differences.some(isClear) ? fewestAtEnds(compared.loaded) : 0;
  const here = standing(compared, new Meter('assumptions', onProgress, fewest));
  const images = compared.strategies.reduce((sum, { model }) => sum + model.images.length, 0);
  return yield* together(
    register.map(function* (value): Work<Assumption> {
      const { range } = value;
      return entryOf(value, range !== null && isOpen(value) ? yield* bothEnds(here, value, range) : null);
    }),
    Math.max(1, Math.floor(MOST_IMAGES / images)),
  );
}

/** Whether both ends of a value's range are tried. What carries an uncertainty is drawn from it, so its ends are not tried a second time. */
function openIn({ inputs }: Pick<LoadedScenario, 'inputs'>): (value: RegisterValue) => boolean {
  const drawn = new Set(inputs.flatMap(({ parameters }) => parameters.map(({ path }) => path)));
  return ({ path, standing, range }) => standing === 'assumed' && range !== null && !drawn.has(path);
}

/** Campaigns of the first look at both ends of every range, of two strategies. */
export function fewestAtEnds(loaded: Pick<LoadedScenario, 'register' | 'inputs'>): number {
  return loaded.register.filter(openIn(loaded)).length * 2 * 2 * LOOKS[0];
}

/** The register where no range was tried. */
export function assumptionsUntried({ register }: LoadedScenario): readonly Assumption[] {
  return register.map((value) => entryOf(value, null));
}

function entryOf({ range, ...shown }: RegisterValue, reversals: Assumption['reversals']): Assumption {
  return { ...shown, range: range?.text ?? null, reversals };
}

/** What all ends of all ranges are held against. */
interface Here extends Compared {
  readonly told: readonly Told[];
  /** Of every interval, so that all hold together. */
  readonly level: number;
  /** By strategy, what its campaigns depend on. */
  readonly counts: readonly string[];
  readonly meter: Meter;
}

function standing(compared: Compared, meter: Meter): Here {
  const { collectors, differences, strategies } = compared;
  const level = bonferroni(LEVEL, comparisons(strategies.length));
  const told = differences.filter(isClear).map((difference): Told => {
    const other = strategies.findIndex(({ name }) => name === difference.strategy);
    const [to, from] = [collectors[other], collectors[0]].map((each) => valuesOf(each, difference.measure));
    return { ...difference, other, halfWidth: pairedInterval(to, from, level).halfWidth };
  });
  return { ...compared, told, level, counts: strategies.map(whatCounts), meter };
}

/** What turns at either end; null where nothing does and an end is no scenario, because a value beside it does not allow it. */
function* bothEnds(here: Here, value: RegisterValue, { low, high }: WrittenRange): Work<readonly Reversal[] | null> {
  const ends = yield* together([low, high].map((end) => turnsAt(here, value, end)));
  const turns = ends.flatMap((found) => found ?? []);
  return turns.length === 0 && ends.includes(null) ? null : turns;
}

/** A clear difference, the place of its strategy, and its half-width. */
type Told = Difference & { readonly other: number; readonly halfWidth: number };

function isClear({ verdict }: Difference): boolean {
  return verdict !== 'no clear difference';
}

function* turnsAt(here: Here, value: RegisterValue, end: Written): Work<readonly Reversal[] | null> {
  const changed = withEnd(here.loaded, value, end);
  if (!changed.ok) return null;
  if (here.told.length === 0) return [];
  const there = new EndRuns(here, runnable(changed.scenario.strategies));
  if (!there.isTouched) return [];
  const turns: Reversal[] = [];
  for (const difference of here.told) {
    const estimate = yield* there.estimate(difference);
    const verdict = verdictIn(estimate);
    if (verdict === difference.verdict) continue;
    const { strategy, measure } = difference;
    turns.push({
      path: value.path,
      strategy,
      measure,
      at: String(end),
      baseline: difference.estimate.value,
      atLimit: estimate,
      isReversed: verdict !== 'no clear difference',
    });
  }
  return turns;
}

/** Replications of all strategies at one end of a range, as many as each needs; those not touched are as they were. */
class EndRuns {
  /** By strategy; null where it is not touched. */
  private readonly runs: readonly (Runs | null)[];

  constructor(
    private readonly here: Here,
    strategies: readonly Runnable[],
  ) {
    this.runs = strategies.map((strategy, i) =>
      whatCounts(strategy) === here.counts[i] ? null : new Runs(strategy, here.seed, { cut: true }),
    );
  }

  get isTouched(): boolean {
    return this.runs.some((runs) => runs !== null);
  }

  /**
   * The difference at this end, from the one found before and from some replications with common random numbers in both
   * places. As many of them as it takes to know its sign, or those of the last look.
   */
  *estimate({ other, measure, estimate: before, halfWidth: known }: Told): Work<Estimate> {
    const { collectors, meter, level } = this.here;
    for (let look = 0; ; look += 1) {
      const replications = Math.min(LOOKS[look], collectors[0].count);
      yield* completed(meter.over([0, other].flatMap((index) => this.runs[index]?.tasksTo(replications) ?? [])));
      const here = this.differences(collectors, measure, other, replications);
      const runs = collectors.map((collector, index) => this.runs[index] ?? collector);
      const there = this.differences(runs, measure, other, replications);
      const changed = changedBy({ value: before.value, halfWidth: known }, here, there, level);
      const { value, halfWidth, low, high } = differenceIn(measure, changed);
      const isLast = look === LOOKS.length - 1 || replications < LOOKS[look];
      // Where nothing has changed at all, what the end changes may be rare rather than nothing.
      const isChanged = here.some((difference, i) => difference !== there[i]);
      const isKnown = isChanged ? Math.abs(value) > FAR * halfWidth : look >= UNMET;
      if (isLast || isKnown) return isChanged ? { value, low, high } : before;
    }
  }

  /** Differences of a strategy from the first, replication by replication. */
  private differences(
    of: readonly Pick<Campaigns, 'values' | 'finishedAt' | 'column'>[],
    measure: Reversal['measure'],
    other: number,
    replications: number,
  ): Float64Array {
    const [to, from] = [of[other], of[0]].map((each) => valuesOf(each, measure));
    return less(to.subarray(0, replications), from);
  }
}
