import { LuckTable } from '../chance/luck.js';
import type { LoadedScenario } from '../scenario/load.js';
import { lookAt } from '../statistics/stopping.js';
import { allocationOf, recordOf, type StudyOptions } from './about.js';
import { registerWithTurns } from './assumptions.js';
import { Collector } from './collector.js';
import { comparisons, differencesOf, isPreciseEnough, LEVEL, type TimeMeasure, timeMeasureOf } from './differences.js';
import { DRAWS, notKnowingOf } from './not-knowing/not-knowing.js';
import { replicate, type Runnable, runnable } from './replicate.js';
import { type ComparisonResult, SUMMARY_FORMAT, type Summary } from './results.js';
import { shownReplications } from './shown.js';
import { strategySummary } from './strategy-summary.js';
import { verdictOf } from './verdict.js';

export interface CompareOptions extends StudyOptions {
  /** Run exactly so many replications. */
  readonly replications?: number;
  /** Stop after so many at the latest; 20 000 unless given. */
  readonly maxReplications?: number;
  /** Draws of what the scenario says is not known; 200 unless given. */
  readonly draws?: number;
}

/** Half-width of a difference, as a share of the first strategy's mean, at which replications stop. */
const PRECISION = 0.01;
const MOST_REPLICATIONS = 20_000;

/** Runs all strategies of a scenario over the same luck, until the differences are known well enough. */
export function compare(loaded: LoadedScenario, options: CompareOptions): ComparisonResult {
  const record = recordOf(SUMMARY_FORMAT, loaded, options);
  const table = new LuckTable(record.seed);
  const strategies = runnable(loaded.strategies);
  const time = timeMeasureOf(strategies);
  const collectors = strategies.map(() => new Collector());
  const stopping = replicateUntilKnown(strategies, collectors, time, table, options);
  const names = strategies.map(({ name }) => name);
  const differences = differencesOf(names, collectors, time);
  const compared = { loaded, strategies, table, collectors, differences, time };
  const notKnowing = notKnowingOf(compared, options.draws ?? DRAWS, (progress) => options.onProgress?.(progress));
  const register = registerWithTurns(compared, (done, of) => options.onProgress?.({ phase: 'assumptions', done, of }));
  const summaries = strategies.map((strategy, i) => strategySummary(strategy, collectors[i], time));
  const summary: Summary = {
    ...record,
    replications: collectors[0].count,
    stopping,
    confidence: { level: LEVEL, comparisons: comparisons(strategies.length) },
    timeMeasure: time,
    allocation: allocationOf(strategies[0]),
    strategies: summaries,
    differences,
    verdict: verdictOf({
      ...{ strategies: summaries, differences, notKnowing, register },
      timeMeasure: time,
      currency: loaded.currency,
    }),
    register,
    notKnowing,
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
