import { LuckTable } from '../../chance/luck.js';
import type { Strategy } from '../../scenario/load.js';
import { replicate, runnable, withCuts } from '../replicate.js';
import type { ExperimentKind } from '../runner.js';

/** Campaigns of these strategies, from start to end, all on the same random streams. */
export interface StrategiesExperiment {
  readonly kind: 'strategies';
  readonly strategies: readonly Strategy[];
}

export const strategies: ExperimentKind<StrategiesExperiment> = {
  strategiesOf: (experiment) => experiment.strategies,
  runnerOf: (experiment, seed, { cutAfter }) => {
    const table = new LuckTable(seed);
    const all = runnable(experiment.strategies).map((strategy) => withCuts(strategy, cutAfter));
    return {
      parts: all.length,
      run: (replication, put) => {
        all.forEach((strategy, part) => {
          put(part, replicate(strategy, table, replication));
        });
      },
    };
  },
};
