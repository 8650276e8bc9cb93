import { bonferroni, meanInterval, pairedInterval } from '../../statistics/interval.js';
import { countOf } from '../../statistics/numbers.js';
import { LEVEL, measureOf } from '../differences.js';
import { estimateOfMeasure, shareOf } from '../estimate.js';
import type { Campaigns } from '../collector.js';
import type { SweepBest, SweptStrategy } from './results.js';

/** A strategy at a point of the grid, with its campaigns; what is alike has the same ones. */
export interface Swept<Runs extends Campaigns = Campaigns> {
  /** Number of the setting in each range, from 0. */
  readonly at: readonly number[];
  readonly settings: readonly string[];
  readonly strategy: string;
  readonly runs: Runs;
}

const RESPECTS = ['time', 'operatorTime', 'yield', 'cost'] as const;

/** The best of each strategy that follows the ranges, with all that is not told apart from it on the same luck. */
export function bestOf(tried: readonly Swept[], strategies: readonly SweptStrategy[]): readonly SweepBest[] {
  return strategies
    .filter(({ follows }) => follows)
    .flatMap(({ name }) => {
      const own = tried.filter(({ strategy }) => strategy === name);
      return own.length === 0 ? [] : RESPECTS.map((respect) => bestIn(own, respect));
    });
}

function bestIn(own: readonly Swept[], respect: SweepBest['respect']): SweepBest {
  const measure = measureOf(respect);
  const sign = respect === 'yield' ? -1 : 1;
  const scored = own.map((each) => ({ each, score: sign * meanInterval(each.runs.values[measure], LEVEL).mean }));
  const { each: best } = scored.reduce((least, one) => (one.score < least.score ? one : least));
  const level = bonferroni(LEVEL, Math.max(1, own.length - 1));
  const alike = own.filter((other) => {
    if (other === best) return false;
    if (other.runs === best.runs) return true;
    const { low, high } = pairedInterval(other.runs.values[measure], best.runs.values[measure], level);
    return low <= 0 && high >= 0;
  });
  return {
    strategy: best.strategy,
    respect,
    settings: best.settings,
    estimate: estimateOfMeasure(measure, best.runs.values[measure]),
    yield: shareOf(best.runs.values.yield),
    finishes: countOf(best.runs.finishedAt, Number.isFinite) / best.runs.count,
    alike: alike.map(({ settings }) => settings),
  };
}
