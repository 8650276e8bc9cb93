import { resolve } from 'node:path';
import { withCache } from '../execution/cache.js';
import { Checkpoint } from '../execution/machine/checkpoint.js';
import { checkpointOf } from '../execution/machine/neighbours.js';
import type { WorkerPool } from '../execution/machine/worker-pool.js';
import type { Work } from '../execution/work.js';
import { numberText } from '../wording/numbers.js';
import type { Console } from './console.js';
import type { Progress } from './progress.js';

/** Where a study is run: `folder` is the place of its report or shard. */
export interface RunPlace {
  readonly console: Console;
  readonly folder: string;
  readonly pool: WorkerPool;
  readonly ground: { readonly progress: Progress };
}

/** Runs a study to its end, going on from what an earlier run of it did before it was killed. */
export async function runWithCheckpoint<Result>(
  { console, folder, pool, ground: { progress } }: RunPlace,
  work: Work<Result>,
): Promise<Result> {
  const checkpoint = new Checkpoint(checkpointOf(resolve(folder)));
  let isThrough = false;
  try {
    const result = await pool.run(withCache(work, checkpoint));
    isThrough = !pool.isStopped;
    return result;
  } finally {
    progress.stop();
    // Where the report comes next, it is hardly worth the time.
    if (!isThrough) checkpoint.flush();
    if (checkpoint.takenOver > 0)
      console.note(
        `took over ${numberText(checkpoint.takenOver)} campaigns from an earlier run that did not come to its end`,
      );
  }
}
