import { LuckTable } from '../../chance/luck.js';
import { replicate, runnable } from '../replicate.js';
import type { StrategiesPlay } from './order.js';
import type { Stage } from './stage.js';

/** All strategies on the same luck. */
export function strategiesStage(play: StrategiesPlay, seed: string): Stage {
  const table = new LuckTable(seed);
  const strategies = runnable(play.strategies);
  return {
    parts: strategies.length,
    perform: (replication, put) => {
      strategies.forEach((strategy, part) => {
        put(part, replicate(strategy, table, replication));
      });
    },
  };
}
