import { SECOND } from '../../kernel/clock.js';
import { OrderStatistics } from '../../statistics/order-statistics.js';
import { orderStatisticRanks } from '../../statistics/quantile.js';
import { LEVEL } from '../../analysis/differences.js';
import { momentName } from './moment.js';
import type { Remaining } from './results.js';

const PROBABILITIES = [0.1, 0.5, 0.9];

/** Seconds by which a share of all replications is finished, those that never are coming last. */
export function remainingOf(finishedAt: Float64Array, now: number): readonly Remaining[] {
  const sample = new OrderStatistics(finishedAt.map((time) => (Number.isNaN(time) ? Infinity : time)));
  const at = (rank: number | null): number | null => {
    const value = rank === null ? Infinity : sample.at(rank);
    return value === Infinity ? null : value;
  };
  return PROBABILITIES.map((probability) => {
    const { r, s } = orderStatisticRanks(sample.length, probability, LEVEL);
    const value = at(Math.max(1, Math.ceil(probability * sample.length)));
    return {
      probability,
      value,
      low: at(r),
      high: at(s),
      clock: value === null ? null : momentName(now + Math.floor(value * SECOND + 0.5)),
    };
  });
}
