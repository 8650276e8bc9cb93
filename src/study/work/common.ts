import type { StudyOptions } from '../about.js';
import type { Collector } from '../collector.js';
import type { Errand, Order } from './order.js';

/** Runs all strategies of a play on, to as many replications of each; `campaigns` has one collector a strategy. */
export function runTo(
  end: number,
  order: Pick<Order, 'play' | 'seed' | 'wants'>,
  campaigns: readonly Collector[],
  onProgress: StudyOptions['onProgress'],
): Errand {
  for (const each of campaigns) each.reserve(end);
  return {
    order: { ...order, from: campaigns[0].count + 1, to: end },
    take: (answer) => {
      answer.forEach((batch, i) => {
        campaigns[i].append(batch);
      });
      onProgress?.({ phase: 'replications', done: campaigns[0].count, of: end });
    },
  };
}
