import { bonferroni, pairedInterval } from '../../statistics/interval.js';
import { average, countOf, type Numbers } from '../../statistics/numbers.js';
import { LEVEL, measureOf } from '../differences.js';
import { estimateOfMeasure, shareOf } from '../estimate.js';
import type { Campaigns } from '../collector.js';
import { timePerGood } from '../time-per-good.js';
import type { SweepBest, SweptStrategy } from './results.js';

/** A strategy at a point of the grid, with its campaigns; what is alike has the same ones. */
export interface Swept<Runs extends Campaigns = Campaigns> {
  /** Number of the setting in each range, from 0. */
  readonly at: readonly number[];
  readonly settings: readonly string[];
  readonly strategy: string;
  readonly runs: Runs;
}

const RESPECTS = ['time', 'timePerGood', 'operatorTime', 'yield', 'cost'] as const;
type Respect = (typeof RESPECTS)[number];

/** The best of each strategy that follows the ranges, with all that is not told apart from it on the same luck. */
export function bestOf(tried: readonly Swept[], strategies: readonly SweptStrategy[]): readonly SweepBest[] {
  return strategies
    .filter(({ follows }) => follows)
    .flatMap(({ name }) => {
      const own = tried.filter(({ strategy }) => strategy === name);
      // Where nothing good was ever kept, there is no time per good image.
      const respects = RESPECTS.filter((respect) => own.every(({ runs }) => valuesIn(respect, runs) !== null));
      return own.length === 0 ? [] : respects.map((respect) => bestIn(own, respect));
    });
}

function valuesIn(respect: Respect, runs: Campaigns): Numbers | null {
  return respect === 'timePerGood' ? timePerGood(runs) : runs.values[measureOf(respect)];
}

function bestIn(own: readonly Swept[], respect: Respect): SweepBest {
  const sign = respect === 'yield' ? -1 : 1;
  const scored = own.map((each) => ({ each, values: valuesIn(respect, each.runs) ?? [] }));
  const { each: best, values } = scored.reduce((least, one) =>
    sign * average(one.values) < sign * average(least.values) ? one : least,
  );
  const level = bonferroni(LEVEL, Math.max(1, own.length - 1));
  const alike = scored.filter(({ each: other, values: theirs }) => {
    if (other === best) return false;
    if (other.runs === best.runs) return true;
    const { low, high } = pairedInterval(theirs, values, level);
    return low <= 0 && high >= 0;
  });
  return {
    strategy: best.strategy,
    respect,
    settings: best.settings,
    estimate: estimateOfMeasure(respect, values),
    yield: shareOf(best.runs.values.yield),
    finishes: countOf(best.runs.finishedAt, Number.isFinite) / best.runs.count,
    alike: alike.map(({ each: { settings } }) => settings),
  };
}
