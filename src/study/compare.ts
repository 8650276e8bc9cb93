import { LuckTable } from '../chance/luck.js';
import type { LoadedScenario } from '../scenario/load.js';
import { planSummary } from '../scenario/plan.js';
import { lookAt } from '../statistics/stopping.js';
import { registerWithTurns } from './assumptions.js';
import { Collector } from './collector.js';
import { comparisons, differencesOf, isPreciseEnough, LEVEL, type TimeMeasure } from './differences.js';
import { SECOND } from '../kernel/clock.js';
import { replicate, type Runnable, runnable } from './replicate.js';
import { type ComparisonResult, SUMMARY_FORMAT, SUMMARY_FORMAT_VERSION, type Summary } from './results.js';
import { shownReplications } from './shown.js';
import { strategySummary } from './strategy-summary.js';
import { verdictOf } from './verdict.js';

export interface Progress {
  readonly phase: string;
  readonly done: number;
  /** How many there will be; for replications the next look, since nobody knows which look is the last. */
  readonly of: number;
}

export interface CompareOptions {
  /** In place of the scenario's own seed. */
  readonly seed?: string;
  /** Run exactly so many replications. */
  readonly replications?: number;
  /** Stop after so many at the latest; 20 000 unless given. */
  readonly maxReplications?: number;
  /** Base name of the scenario file, for the record. */
  readonly file: string;
  readonly sha256: string;
  readonly toolVersion: string;
  /** What the reader of the scenario was warned of. */
  readonly warnings?: readonly string[];
  readonly onProgress?: (progress: Progress) => void;
}

/** Half-width of a difference, as a share of the first strategy's mean, at which replications stop. */
const PRECISION = 0.01;
const MOST_REPLICATIONS = 20_000;

/** Runs all strategies of a scenario over the same luck, until the differences are known well enough. */
export function compare(loaded: LoadedScenario, options: CompareOptions): ComparisonResult {
  const seed = options.seed ?? loaded.base.seed;
  const table = new LuckTable(seed);
  const strategies = runnable(loaded.strategies);
  const time: TimeMeasure = strategies.every(({ model }) => model.bookings.isAlways) ? 'totalTime' : 'instrumentTime';
  const collectors = strategies.map(() => new Collector());
  const stopping = replicateUntilKnown(strategies, collectors, time, table, options);
  const names = strategies.map(({ name }) => name);
  const differences = differencesOf(names, collectors, time);
  const register = registerWithTurns({ loaded, strategies, table, collectors, differences, time }, (done, of) =>
    options.onProgress?.({ phase: 'assumptions', done, of }),
  );
  const summaries = strategies.map((strategy, i) => strategySummary(strategy, collectors[i], time));
  const summary: Summary = {
    format: SUMMARY_FORMAT,
    formatVersion: SUMMARY_FORMAT_VERSION,
    tool: { name: 'swap-or-hop', version: options.toolVersion },
    scenario: aboutScenario(loaded, options),
    seed,
    replications: collectors[0].count,
    stopping,
    confidence: { level: LEVEL, comparisons: comparisons(strategies.length) },
    timeMeasure: time,
    allocation: allocationOf(strategies[0]),
    strategies: summaries,
    differences,
    verdict: verdictOf({ strategies: summaries, differences, timeMeasure: time, register, currency: loaded.currency }),
    register,
    shown: shownReplications(strategies, collectors, time, table),
    warnings: [...(options.warnings ?? []), ...(stopping.rule === 'limit' ? [stopping.text] : [])],
  };
  const replications = collectors[0].finishedAt.flatMap((_, index) =>
    strategies.map(({ name }, i) => collectors[i].row(name, index)),
  );
  return { summary, replications };
}

/** Looks after 200, 400, 800 … replications, unless their number is given. */
function replicateUntilKnown(
  strategies: readonly Runnable[],
  collectors: readonly Collector[],
  time: TimeMeasure,
  table: LuckTable,
  options: CompareOptions,
): Summary['stopping'] {
  const runTo = (end: number) => {
    for (let replication = collectors[0].count + 1; replication <= end; replication += 1) {
      strategies.forEach((strategy, i) => {
        collectors[i].add(replicate(strategy, table, replication));
      });
      options.onProgress?.({ phase: 'replications', done: replication, of: end });
    }
  };
  if (options.replications !== undefined) {
    runTo(options.replications);
    return { rule: 'fixed', text: `${options.replications} replications were asked for` };
  }
  const most = options.maxReplications ?? MOST_REPLICATIONS;
  for (let look = 0; ; look += 1) {
    const end = Math.min(lookAt(look), most);
    runTo(end);
    if (isPreciseEnough(collectors, time, PRECISION)) {
      return {
        rule: 'precision',
        text: `stopped after ${end} replications, when every difference in time, yield and tips was known to ±1 % of the first strategy's mean`,
      };
    }
    if (end === most) {
      return {
        rule: 'limit',
        text: `stopped at the limit of ${most} replications before every difference in time, yield and tips was known to ±1 % of the first strategy's mean`,
      };
    }
  }
}

function aboutScenario(loaded: LoadedScenario, options: CompareOptions): Summary['scenario'] {
  const { base, strategies } = loaded;
  const [first] = strategies;
  const plan = planSummary(first.settings, first.workflow);
  return {
    title: base.title,
    about: base.about ?? null,
    file: options.file,
    sha256: options.sha256,
    currency: loaded.currency,
    cautions: base.cautions,
    order: base.plan.order,
    regions: base.plan.regions,
    passes: base.plan.passes.map(({ name }) => name),
    images: plan.images,
    scanTime: plan.scanTime,
    slidingPath: plan.path,
    instruments: base.instruments,
    operators: base.operators.count,
    bookings: loaded.register.find(({ path }) => path === 'bookings.hours')?.value ?? 'always',
  };
}

function allocationOf({ model }: Runnable): Summary['allocation'] {
  const { allocation } = model.settings.bookings;
  if (allocation === undefined || model.allocationEnd === null) return null;
  const unit = allocation.unit === 'hour' ? 'h' : allocation.amount === 1 ? 'session' : 'sessions';
  return { text: `${allocation.amount} ${unit}`, end: (model.allocationEnd - model.start) / SECOND };
}
