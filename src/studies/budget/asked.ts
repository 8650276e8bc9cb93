import type { OrderStatistics } from '../../statistics/order-statistics.js';
import { orderStatisticRanks } from '../../statistics/quantile.js';
import { LEVEL } from '../../analysis/differences.js';
import type { Asked } from './results.js';

/**
 * What suffices with a chance: the least value that at least this share of the replications needs no more than, with its
 * distribution-free interval. H. A. David and H. N. Nagaraja, Order Statistics, 3rd ed., section 7.1.
 * @param sample one value a replication; Infinity where no amount would do
 */
export function askedFor(sample: OrderStatistics, chance: number): Asked {
  const { r, s } = orderStatisticRanks(sample.length, chance, LEVEL);
  const at = (rank: number | null) => (rank === null ? null : finite(sample.at(rank)));
  return { value: at(Math.max(1, Math.ceil(sample.length * chance - 1e-9))), low: at(r), ask: at(s) };
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}

/** The same, in another unit; `in` must not fall with what it is given. */
export function mapAsked({ value, low, ask }: Asked, of: (amount: number) => number): Asked {
  const mapped = (amount: number | null) => (amount === null ? null : of(amount));
  return { value: mapped(value), low: mapped(low), ask: mapped(ask) };
}

export const NOTHING_ASKED: Asked = { value: null, low: null, ask: null };
