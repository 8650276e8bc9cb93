import { LuckTable } from '../chance/luck.js';
import type { LoadedScenario } from '../scenario/load.js';
import { lookAt } from '../statistics/stopping.js';
import { allocationOf, recordOf, type StudyOptions } from './about.js';
import { registerUntried, registerWithTurns } from './assumptions.js';
import { BY_HAND, FEWEST_SAID, spokenOf, stoppedAt, stoppedBehind, unlessStopped } from './by-hand.js';
import { Collector } from './collector.js';
import { comparisons, differencesOf, isPreciseEnough, LEVEL } from './differences.js';
import { DRAWS, notKnowingOf } from './not-knowing/not-knowing.js';
import { runnable } from './replicate.js';
import { ReplicationTable } from './replication-table.js';
import { type ComparisonResult, SUMMARY_FORMAT, type Summary } from './results.js';
import { shownReplications } from './shown.js';
import { strategySummary } from './strategy-summary.js';
import { verdictOf } from './verdict.js';
import { freeHasteBetween } from './what-rushing-costs.js';
import { alone } from './work/alone.js';
import { runTo } from './work/common.js';
import type { Work } from './work/work.js';

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
const WANTS = { cut: true, sums: true };
/** What is missing where somebody stopped it. */
const UNTRIED = 'what is only assumed, or known only so far, was not tried at other values';

/** Runs all strategies of a scenario over the same luck, until the differences are known well enough. */
export function compare(loaded: LoadedScenario, options: CompareOptions): ComparisonResult {
  return alone(compareWork(loaded, options));
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
  const collectors = spokenOf(all, ended.rule);
  const names = strategies.map(({ name }) => name);
  const differences = differencesOf(names, collectors);
  const compared = { loaded, strategies, seed, collectors, differences };
  const beyond = ended.rule === BY_HAND ? null : yield* unlessStopped(beyondOf(compared, options));
  const isWhole = beyond !== null || ended.rule === BY_HAND;
  const stopping = isWhole ? ended : byHand(stoppedBehind(collectors[0].count, UNTRIED));
  const { notKnowing, register } = beyond ?? { notKnowing: null, register: registerUntried(loaded) };
  const summaries = strategies.map((strategy, i) => strategySummary(strategy, collectors[i]));
  const found = {
    replications: collectors[0].count,
    stopping,
    confidence: { level: LEVEL, comparisons: comparisons(strategies.length) },
    allocation: allocationOf(strategies[0]),
    strategies: summaries,
    differences,
  };
  const summary: Summary = {
    ...record,
    ...found,
    verdict: verdictOf({
      ...{ ...found, register, notKnowing, currency: loaded.currency },
      freeHaste: freeHasteBetween(loaded.strategies),
    }),
    register,
    notKnowing,
    shown: beyond === null ? [] : shownReplications(strategies, collectors, new LuckTable(seed)),
    // That somebody stopped it is the first thing that the verdict says.
    warnings: [...(options.warnings ?? []), ...(ended.rule === 'limit' ? [ended.text] : [])],
  };
  return { summary, replications: new ReplicationTable(names, collectors) };
}

/** What follows upon the replications: what is not known, and the ends of ranges. */
function* beyondOf(
  compared: Parameters<typeof registerWithTurns>[0],
  { draws = DRAWS, onProgress }: CompareOptions,
): Work<Pick<Summary, 'notKnowing' | 'register'>> {
  const notKnowing = yield* notKnowingOf(compared, draws, onProgress);
  return { notKnowing, register: yield* registerWithTurns(compared, onProgress) };
}

/** Looks after 200, 400, 800 … replications, unless their number is given. */
function* replicateUntilKnown(
  { strategies }: LoadedScenario,
  seed: string,
  collectors: readonly Collector[],
  options: CompareOptions,
): Work<Summary['stopping']> {
  const order = { play: { kind: 'strategies' as const, strategies }, seed, wants: WANTS };
  const most = options.maxReplications ?? MOST_REPLICATIONS;
  for (let look = 0; ; look += 1) {
    const end = options.replications ?? Math.min(lookAt(look), most);
    if (yield [runTo(end, order, collectors, options.onProgress)]) {
      return byHand(stoppedAt(collectors, UNTRIED, FEWEST_SAID));
    }
    if (options.replications !== undefined) return { rule: 'fixed', text: `${end} replications were asked for` };
    if (isPreciseEnough(collectors, PRECISION)) {
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

function byHand(text: string): Summary['stopping'] {
  return { rule: BY_HAND, text };
}
