import type { StudyOptions } from '../about.js';
import type { Collector } from '../collector.js';
import type { Errand, Order } from './order.js';

/** Campaigns of which everything can be said within about half a second, when somebody stops a study. */
const SAID_AT_ONCE = 1_000_000;

/** Runs all strategies of a play on, to as many replications of each; `campaigns` has one collector a strategy, with a mark at what can be said at once. */
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
      if (campaigns[0].count * campaigns.length >= SAID_AT_ONCE) for (const each of campaigns) each.setMark();
      onProgress?.({ phase: 'replications', done: campaigns[0].count, of: end });
    },
  };
}
