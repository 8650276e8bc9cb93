import { bonferroni, type MeanInterval, pairedInterval } from '../../statistics/interval.js';
import { lookAt } from '../../statistics/stopping.js';
import { FEWEST_SAID } from '../../analysis/interrupted.js';
import { differenceIn, LEVEL } from '../../analysis/differences.js';
import { estimateIn, estimateOf, estimateOfMeasure, shareOf } from '../../analysis/estimate.js';
import type { Estimate } from '../../statistics/estimate.js';
import type { Setting } from '../../scenario/ranges.js';
import { Stopped, type Work } from '../../execution/work.js';
import type { Counter } from './counter.js';
import { type Goal, goalValues } from './goals.js';
import type { Constraint, Standing, TunedSetting } from './results.js';
import type { Trials } from './trials.js';

/** A setting in the comparison, with what the selection found of it. */
export interface Entry {
  readonly settings: readonly Setting[];
  readonly isPresent: boolean;
  /** Null where it took no part in the selection, or none was wanted. */
  readonly meets: TunedSetting['meets'];
  readonly eliminatedAfter: number | null;
  readonly trials: Trials;
}

export interface Comparing {
  readonly goal: Goal;
  readonly constraint: Constraint | null;
  /** Place of the winner among the entries. */
  readonly winner: number | null;
  /** Intervals of differences are widened for so many. */
  readonly comparisons: number;
}

/** Campaigns that the comparison may take, beyond its first look. */
const MOST_CAMPAIGNS = 20_000;

/**
 * Runs all settings to a common number of replications, 200, 400, 800 …: until whatever shows no clear difference from the winner is known to
 * within the zone, or the campaigns run out. The random numbers are fresh, so that the winner is not the one that chance has favoured.
 * @param size the zone in the unit of the goal
 * @throws Stopped where it was interrupted with hardly any replication of each
 * @returns whether it was interrupted, with as many replications of all settings as were complete
 */
export function* runComparison(
  entries: readonly Entry[],
  comparing: Comparing,
  size: number,
  counter: Counter,
): Work<boolean> {
  for (let look = 0; ; look += 1) {
    const wanted = lookAt(look);
    const isStopped = yield counter.over(entries.flatMap(({ trials }) => trials.tasksTo(wanted)));
    const replications = Math.min(...entries.map(({ trials }) => trials.count));
    if (replications < FEWEST_SAID) throw new Stopped();
    for (const { trials } of entries) trials.lookAt(replications);
    if (isStopped) return true;
    if (isKnown(entries, comparing, size) || 2 * replications * entries.length > MOST_CAMPAIGNS) return false;
  }
}

function isKnown(entries: readonly Entry[], comparing: Comparing, size: number): boolean {
  if (comparing.winner === null) return true;
  return entries.every((entry, place) => {
    const loss = lossOf(entry, place, entries, comparing);
    return loss === null || loss.low > 0 || loss.high < 0 || loss.halfWidth <= size;
  });
}

/** How much worse a setting is than the winner; null where there is nothing to say. */
function lossOf(
  { trials }: Entry,
  place: number,
  entries: readonly Entry[],
  { goal, winner, comparisons }: Comparing,
): MeanInterval | null {
  if (winner === null || place === winner) return null;
  const [own, best] = [trials, entries[winner].trials].map((each) => goalValues(goal, each));
  if (own === null || best === null) return null;
  const level = bonferroni(LEVEL, comparisons);
  return goal.sense === 'least' ? pairedInterval(own, best, level) : pairedInterval(best, own, level);
}

/** What is said of each setting. */
export function comparedSettings(entries: readonly Entry[], comparing: Comparing): readonly TunedSetting[] {
  const { goal, winner } = comparing;
  const best = winner === null ? null : goalOf(goal, entries[winner].trials);
  return entries.map((entry, place): TunedSetting => {
    const { trials, settings, isPresent, eliminatedAfter } = entry;
    const loss = lossOf(entry, place, entries, comparing);
    const meets = entry.meets ?? meetsOf(trials, comparing.constraint);
    return {
      settings,
      isPresent,
      standing: place === winner ? 'winner' : standingOf(meets, loss, winner),
      meets,
      eliminatedAfter,
      goal: goalOf(goal, trials),
      loss: loss === null ? null : estimateIn(differenceIn(goal.unit, loss)),
      lossShare: loss === null || best === null || best.value === 0 ? null : loss.mean / Math.abs(best.value),
      measures: {
        time: estimateOf(trials.of('time')),
        operatorTime: estimateOf(trials.of('operatorTime')),
        yield: shareOf(trials.of('yield')),
        undetectedBadShare: shareOf(trials.of('undetectedBadShare')),
        tips: estimateOf(trials.of('tips')),
        cost: estimateOf(trials.of('cost')),
      },
      finishes: trials.finishedShare,
    };
  });
}

/** A setting that took no part in a selection, or in one that somebody stopped, is judged by the interval of its yield. */
function meetsOf(trials: Trials, constraint: Constraint | null): TunedSetting['meets'] {
  if (constraint === null) return null;
  const { low, high } = shareOf(trials.of('yield'));
  if (low >= constraint.yieldAtLeast) return 'meets';
  return high < constraint.yieldAtLeast ? 'fails' : 'unclear';
}

function standingOf(meets: TunedSetting['meets'], loss: MeanInterval | null, winner: number | null): Standing {
  if (meets === 'fails') return 'fails the yield';
  if (meets === 'unclear') return 'yield unclear';
  if (winner === null) return 'no winner';
  if (loss === null || loss.low > 0) return 'worse';
  return loss.high < 0 ? 'better' : 'no clear difference';
}

/** What a setting comes to; null where it keeps nothing that counts. */
function goalOf(goal: Goal, trials: Trials): Estimate | null {
  const values = goalValues(goal, trials);
  return values === null ? null : estimateOfMeasure(goal.unit, values);
}
