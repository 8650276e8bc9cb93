import { LOST_SCANS, perTimePart } from '../../campaign/time-parts.js';
import type { LoadedScenario, Strategy } from '../../scenario/load.js';
import { meanInterval } from '../../statistics/interval.js';
import { countOf } from '../../statistics/numbers.js';
import { relativeHalfWidth } from '../../statistics/stopping.js';
import { recordOf, type StudyOptions } from '../../analysis/about.js';
import { answerUnlessStopped } from '../../analysis/answer.js';
import { stoppedWithin, warnedOf } from '../../analysis/interrupted.js';
import { LEVEL } from '../../analysis/differences.js';
import { chanceOf, estimateOf, estimateOfMeasure } from '../../analysis/estimate.js';
import { Pool } from '../../execution/pool.js';
import { runnable } from '../../execution/replicate.js';
import { perMeasure } from '../../execution/measures.js';
import type { Runs } from '../../execution/runs.js';
import { numberOf, settingLabel } from '../../analysis/vary/axis.js';
import { followersOf } from '../../analysis/vary/followers.js';
import { applySettings, type Varied } from '../../analysis/vary/varied.js';
import { timePerGood } from '../../analysis/time-per-good.js';
import { heldAtCentre } from '../../analysis/vary/held.js';
import { notToHurry } from '../../analysis/vary/hurry.js';
import { freeHasteAlong } from '../../analysis/what-rushing-costs.js';
import { runInProcess } from '../../execution/in-process.js';
import { Meter } from '../../execution/progress.js';
import type { Work } from '../../execution/work.js';
import { bestOf, type Swept } from './best.js';
import { type Sweep, SWEEP_FORMAT, type SweepCell, type SweepRange } from './results.js';
import { sweepAnswer } from './words.js';

export interface SweepOptions extends StudyOptions {
  /** One or two values, read for the same strategy. */
  readonly vary: readonly Varied[];
  /** The only strategy that follows the values and is shown; all, by the shared part, where it is not given. */
  readonly strategy?: string;
}

/** Most points of a grid times strategies. */
export const MOST_CELLS = 2000;
/** Replications of a cell: from, doubled up to; and campaigns beyond which they are not doubled again. */
const REPLICATIONS = { least: 20, from: 100, to: 1600 };
const MOST_CAMPAIGNS = 40_000;
/** Half-widths at which replications stop: of time as a share of its mean, of yield as such. */
const PRECISION = 0.01;

/** Runs all strategies at every point of a grid of settings, with common random numbers. */
export function sweep(loaded: LoadedScenario, options: SweepOptions): Sweep {
  return runInProcess(sweepWork(loaded, options));
}

/**
 * The same as work that others carry out. Stopped by hand, it says what the last round came to that is complete.
 * @throws Stopped where it was interrupted before any round was
 */
export function* sweepWork(loaded: LoadedScenario, options: SweepOptions): Work<Sweep> {
  const { vary, strategy = null } = options;
  const record = recordOf(SWEEP_FORMAT, loaded, options);
  const pool = new Pool(record.seed, { timeParts: true });
  const shown = loaded.strategies.filter(({ name }) => strategy === null || name === strategy);
  const { grid, leftOut } = gridOf(loaded, vary, strategy, pool);
  const { replications, stopping } = yield* replicateGrid(grid, options);
  const swept = upTo(grid, replications);
  const followers = vary.flatMap((varied) => followersOf(loaded, varied, strategy));
  const ranges = vary.map(rangeOf);
  const strategies = shown.map(({ name, workflow }) => ({ name, workflow, follows: followers.includes(name) }));
  const best = bestOf(swept, strategies, loaded.base.smallestDifference);
  const found = { ranges, strategies, best, leftOut, cells: swept.map(cellOf) };
  const freeHaste = freeHasteAlong(
    ranges.map(({ path }) => path),
    shown.filter(({ name }) => followers.includes(name)),
  );
  return {
    ...record,
    ...found,
    level: LEVEL,
    replications,
    campaigns: pool.campaigns,
    stopping,
    answer: answerUnlessStopped(sweepAnswer({ ...found, level: LEVEL, freeHaste }, loaded.currency), stopping),
    warnings: [
      ...(options.warnings ?? []),
      ...heldAtCentre(loaded),
      ...notToHurry(options.vary),
      ...warnedOf(stopping),
    ],
  };
}

function rangeOf({ path, description, kind, span, settings }: Varied): SweepRange {
  const numbers = settings.map(numberOf);
  return {
    path,
    description,
    isChoice: kind === 'choice' || numbers.includes(null),
    isLog: span?.isLog ?? false,
    unit: span?.unit ?? '',
    settings,
    numbers,
  };
}

/** Every point of the grid that is a scenario, the last range fastest. */
function gridOf(
  loaded: LoadedScenario,
  vary: readonly Varied[],
  strategy: string | null,
  pool: Pool,
): { grid: readonly Swept<Runs>[]; leftOut: Sweep['leftOut'] } {
  const grid: Swept<Runs>[] = [];
  const leftOut: Sweep['leftOut'][number][] = [];
  for (const at of points(vary)) {
    const chosen = vary.map(({ path, settings }, axis) => [path, settings[at[axis]]] as const);
    const settings = chosen.map(([, setting]) => settingLabel(setting));
    const applied = applySettings(loaded, chosen, strategy);
    if (!applied.ok) {
      leftOut.push({ settings, reason: applied.message });
      continue;
    }
    const followed = applied.scenario.strategies.filter(({ name }: Strategy) => strategy === null || name === strategy);
    for (const each of runnable(followed)) grid.push({ at, settings, strategy: each.name, runs: pool.runsOf(each) });
  }
  return { grid, leftOut };
}

function points(vary: readonly Varied[]): readonly (readonly number[])[] {
  return vary.reduce<readonly (readonly number[])[]>(
    (found, { settings }) => found.flatMap((at) => settings.map((_, number) => [...at, number])),
    [[]],
  );
}

/** How many replications there are of everything, and in words when that stopped. */
interface Round {
  readonly replications: number;
  readonly stopping: string;
}

/**
 * As many replications everywhere, so that differences between any two cells are paired.
 * @throws Stopped where it was interrupted before any round was complete
 */
function* replicateGrid(grid: readonly Swept<Runs>[], options: SweepOptions): Work<Round> {
  const distinct = [...new Set(grid.map(({ runs }) => runs))];
  if (distinct.length === 0) return { replications: 0, stopping: 'nothing was run' };
  const affordable = Math.floor(MOST_CAMPAIGNS / distinct.length);
  const wanted = 'every mean instrument time was known to ±1 % and every yield to ±1 percentage point';
  const meter = new Meter('campaigns', options.onProgress);
  let replications = 0;
  for (;;) {
    const next =
      replications === 0 ? Math.max(REPLICATIONS.least, Math.min(REPLICATIONS.from, affordable)) : 2 * replications;
    if (yield meter.over(distinct.flatMap((runs) => runs.tasksTo(next))))
      return { replications, stopping: stoppedWithin(replications, null) };
    replications = next;
    if (distinct.every((runs) => isPrecise(runs)))
      return { replications, stopping: `replications were doubled until ${wanted}` };
    if (2 * replications > Math.min(REPLICATIONS.to, affordable))
      return {
        replications,
        stopping: `replications were to be doubled until ${wanted}; it stopped before, at ${MOST_CAMPAIGNS} campaigns in all or ${REPLICATIONS.to} of a cell`,
      };
  }
}

/** The grid with the replications that all of it has. */
function upTo(grid: readonly Swept<Runs>[], replications: number): readonly Swept[] {
  const complete = new Map(grid.map(({ runs }) => [runs, runs.upTo(replications)]));
  return grid.map((each) => ({ ...each, runs: complete.get(each.runs) ?? each.runs }));
}

function isPrecise({ values }: Runs): boolean {
  const duration = meanInterval(values.instrumentTime, LEVEL);
  const gain = meanInterval(values.yield, LEVEL);
  return relativeHalfWidth(duration.halfWidth, duration.mean) <= PRECISION && gain.halfWidth <= PRECISION;
}

function sumsOf([first, ...others]: readonly Float64Array[]): Float64Array {
  return first.map((value, i) => others.reduce((sum, each) => sum + each[i], value));
}

function cellOf({ at, settings, strategy, runs }: Swept): SweepCell {
  const perGood = timePerGood(runs);
  const finished = countOf(runs.finishedAt, Number.isFinite);
  return {
    at,
    settings,
    strategy,
    measures: perMeasure((measure) => estimateOfMeasure(measure, runs.values[measure])),
    timeParts: perTimePart((part) => estimateOf(runs.timeOn(part))),
    timePerGood: perGood === null ? null : estimateOf(perGood),
    scanningLost: estimateOf(sumsOf(LOST_SCANS.map((part) => runs.timeOn(part)))),
    finishes: chanceOf(finished, runs.count),
  };
}
