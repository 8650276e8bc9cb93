import { bonferroni, pairedInterval } from '../../statistics/interval.js';
import { average, countOf, type Numbers } from '../../statistics/numbers.js';
import { LEVEL, measureOf } from '../../analysis/differences.js';
import { estimateIn, estimateOfMeasure, shareOf } from '../../analysis/estimate.js';
import { type Interest, matters, smallestOf } from '../../analysis/interest.js';
import type { Campaigns } from '../../execution/collector.js';
import { timePerGood } from '../../analysis/time-per-good.js';
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

/** The best of each strategy that follows the ranges, with all that shows no clear difference from it that matters, with common random numbers. */
export function bestOf(
  tried: readonly Swept[],
  strategies: readonly SweptStrategy[],
  interest: Interest,
): readonly SweepBest[] {
  return strategies
    .filter(({ follows }) => follows)
    .flatMap(({ name }) => {
      const own = tried.filter(({ strategy }) => strategy === name);
      // Where nothing good was ever kept, there is no time per good image.
      const respects = RESPECTS.filter((respect) => own.every(({ runs }) => valuesIn(respect, runs) !== null));
      return own.length === 0 ? [] : respects.map((respect) => bestIn(own, respect, interest));
    });
}

function valuesIn(respect: Respect, runs: Campaigns): Numbers | null {
  return respect === 'timePerGood' ? timePerGood(runs) : runs.values[measureOf(respect)];
}

function bestIn(own: readonly Swept[], respect: Respect, interest: Interest): SweepBest {
  const sign = respect === 'yield' ? -1 : 1;
  const scored = own.map((each) => ({ each, values: valuesIn(respect, each.runs) ?? [] }));
  const { each: best, values } = scored.reduce((least, one) =>
    sign * average(one.values) < sign * average(least.values) ? one : least,
  );
  const level = bonferroni(LEVEL, Math.max(1, own.length - 1));
  const smallest = smallestOf(respect === 'timePerGood' ? 'time' : respect, interest, average(values));
  const alike = scored.filter(({ each: other, values: theirs }) => {
    if (other === best) return false;
    if (other.runs === best.runs) return true;
    return !matters({ estimate: estimateIn(pairedInterval(theirs, values, level)), smallest });
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
