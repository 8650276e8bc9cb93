import { LuckTable } from '../../chance/luck.js';
import type { LoadedScenario } from '../../scenario/load.js';
import { lookAt } from '../../statistics/stopping.js';
import { calendarOf } from '../../analysis/calendar.js';
import { allocationOf, recordOf, type StudyOptions } from '../../analysis/about.js';
import { assumptionsUntried, assumptionsTried, fewestAtEnds } from './assumptions.js';
import {
  INTERRUPTED,
  FEWEST_SAID,
  completedPrefix,
  stoppedAt,
  stoppedBehind,
  unlessStopped,
} from '../../analysis/interrupted.js';
import { Collector } from '../../execution/collector.js';
import { comparisons, differencesOf, isPreciseEnough, LEVEL } from '../../analysis/differences.js';
import { DRAWS, parameterUncertaintyOf, REPLICATIONS } from './uncertainty/parameter-uncertainty.js';
import { runnable } from '../../execution/replicate.js';
import { ReplicationTable } from './replication-table.js';
import { type ComparisonResult, SUMMARY_FORMAT, type Summary } from '../../analysis/results.js';
import { shownReplications } from './shown.js';
import { strategySummary } from '../../analysis/strategy-summary.js';
import { verdictOf } from './verdict.js';
import { freeHasteBetween } from '../../analysis/what-rushing-costs.js';
import { runInProcess } from '../../execution/in-process.js';
import { runTo } from '../../execution/run-to.js';
import type { Work } from '../../execution/work.js';
import { numberText } from '../../wording/numbers.js';

export interface CompareOptions extends StudyOptions {
  /** Run exactly so many replications. */
  readonly replications?: number;
  /** Stop after so many at the latest; 20 000 unless given. */
  readonly maxReplications?: number;
  /** Draws of what the scenario says is not known; 200 unless given. */
  readonly draws?: number;
  /** Leaves out what follows upon the replications: what rests on unmeasured values is then not known yet. */
  readonly isPreliminary?: boolean;
}

/** Half-width of a difference, as a share of the first strategy's mean, at which replications stop. */
const PRECISION = 0.01;
const MOST_REPLICATIONS = 20_000;
/** What is kept of each replication. */
export const WANTS = { cut: true, sums: true };
/** What is missing where it was interrupted. */
const UNTRIED = 'range limits and parameter uncertainty were not tried';

/** Runs all strategies of a scenario with common random numbers, until the differences are known well enough. */
export function compare(loaded: LoadedScenario, options: CompareOptions): ComparisonResult {
  return runInProcess(compareWork(loaded, options));
}

/**
 * The same as work that others carry out. Stopped by hand, it says what the replications that are complete came to; what
 * follows upon them is left out, and the verdict says so first.
 */
export function* compareWork(loaded: LoadedScenario, options: CompareOptions): Work<ComparisonResult> {
  const record = recordOf(SUMMARY_FORMAT, loaded, options);
  const { seed } = record;
  const strategies = runnable(loaded.strategies);
  const all = strategies.map(() => new Collector(WANTS));
  const ended = yield* replicateUntilKnown(loaded, seed, all, options);
  const collectors = completedPrefix(all, ended.rule);
  const names = strategies.map(({ name }) => name);
  const differences = differencesOf(names, collectors, loaded.base.smallestDifference);
  const compared = { loaded, strategies, seed, collectors, differences };
  const isComplete = ended.rule === INTERRUPTED || options.isPreliminary === true;
  const beyond = isComplete ? null : yield* unlessStopped(beyondOf(compared, options));
  const isWhole = isComplete || beyond !== null;
  const stopping = isWhole ? ended : byHand(stoppedBehind(collectors[0].count, UNTRIED));
  const { parameterUncertainty, assumptions } = beyond ?? {
    parameterUncertainty: null,
    assumptions: assumptionsUntried(loaded),
  };
  const summaries = strategies.map((strategy, i) => strategySummary(strategy, collectors[i]));
  const allocation = allocationOf(strategies[0]);
  const found = {
    replications: collectors[0].count,
    stopping,
    confidence: { level: LEVEL, comparisons: comparisons(strategies.length) },
    allocation,
    calendar: calendarOf(strategies[0].model, summaries, allocation),
    strategies: summaries,
    differences,
  };
  const summary: Summary = {
    ...record,
    ...found,
    verdict: verdictOf({
      ...{ ...found, assumptions, parameterUncertainty, currency: loaded.currency },
      freeHaste: freeHasteBetween(loaded.strategies),
    }),
    assumptions,
    parameterUncertainty,
    shown: beyond === null ? [] : shownReplications(strategies, collectors, new LuckTable(seed)),
    // That it was interrupted is the first thing that the verdict says.
    warnings: [...(options.warnings ?? []), ...(ended.rule === 'limit' ? [ended.text] : [])],
  };
  return { summary, replications: new ReplicationTable(names, collectors) };
}

/** What follows upon the replications: parameter uncertainty, and the ends of ranges. */
function* beyondOf(
  compared: Parameters<typeof assumptionsTried>[0],
  { draws = DRAWS, onProgress }: CompareOptions,
): Work<Pick<Summary, 'parameterUncertainty' | 'assumptions'>> {
  const parameterUncertainty = yield* parameterUncertaintyOf(compared, draws, onProgress);
  return { parameterUncertainty, assumptions: yield* assumptionsTried(compared, onProgress) };
}

/** Campaigns that a comparison takes at least, unless told how many: the first look, all draws, and each end of a range at its first look. */
export function fewestCampaigns(loaded: LoadedScenario): number {
  const draws = loaded.inputs.length === 0 ? 0 : DRAWS * REPLICATIONS;
  return (lookAt(0) + draws) * loaded.strategies.length + fewestAtEnds(loaded);
}

/** Looks after 200, 400, 800 … replications, unless their number is given. */
function* replicateUntilKnown(
  { strategies }: LoadedScenario,
  seed: string,
  collectors: readonly Collector[],
  options: CompareOptions,
): Work<Summary['stopping']> {
  const what = { experiment: { kind: 'strategies' as const, strategies }, seed, wants: WANTS };
  const most = options.maxReplications ?? MOST_REPLICATIONS;
  for (let look = 0; ; look += 1) {
    const end = options.replications ?? Math.min(lookAt(look), most);
    if (yield [runTo(end, what, collectors, options.onProgress)]) {
      return byHand(stoppedAt(collectors, UNTRIED, FEWEST_SAID));
    }
    if (options.replications !== undefined)
      return { rule: 'fixed', text: `${numberText(end)} replications were asked for` };
    if (isPreciseEnough(collectors, PRECISION)) {
      return {
        rule: 'precision',
        text: `stopped after ${numberText(end)} replications, when every difference in time, yield and tips was known to ±1 % of the first strategy's mean`,
      };
    }
    if (end === most) {
      return {
        rule: 'limit',
        text: `stopped at the limit of ${numberText(most)} replications before every difference in time, yield and tips was known to ±1 % of the first strategy's mean`,
      };
    }
  }
}

function byHand(text: string): Summary['stopping'] {
  return { rule: INTERRUPTED, text };
}
