import type { Runs } from '../../src/execution/runs.js';
import { runInProcess } from '../../src/execution/in-process.js';
import { completed, type Work } from '../../src/execution/work.js';

/** Runs on, in place, until there are so many replications. */
export function upTo<Some extends Runs>(runs: Some, replications: number): Some {
  runInProcess(completed(runs.tasksTo(replications)));
  return runs;
}

/** What work comes to whose orders are carried out in place. */
export function resultOf<Result>(work: Work<Result>): Result {
  return runInProcess(work);
}
