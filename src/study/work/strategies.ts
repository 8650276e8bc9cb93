import { LuckTable } from '../../chance/luck.js';
import { replicate, runnable, withCuts } from '../replicate.js';
import type { StrategiesPlay, Wants } from './order.js';
import type { Stage } from './stage.js';

/** All strategies on the same luck. */
export function strategiesStage(play: StrategiesPlay, seed: string, { cutAfter }: Wants): Stage {
  const table = new LuckTable(seed);
  const strategies = runnable(play.strategies).map((strategy) => withCuts(strategy, cutAfter));
  return {
    parts: strategies.length,
    perform: (replication, put) => {
      strategies.forEach((strategy, part) => {
        put(part, replicate(strategy, table, replication));
      });
    },
  };
}
