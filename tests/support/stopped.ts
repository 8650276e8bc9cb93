import { runJob } from '../../src/execution/in-process.js';
import type { Work } from '../../src/execution/work.js';

/**
 * What work comes to that is interrupted in the round behind so many whole ones, with a share of that round's tasks
 * answered.
 */
export function stoppedAfter<Result>(work: Work<Result>, rounds: number, share = 0.5): Result {
  let step = work.next(false);
  for (let round = 1; step.done !== true; round += 1) {
    const tasks = [...step.value];
    const isLast = round > rounds;
    const answered = isLast ? tasks.slice(0, Math.floor(share * tasks.length)) : tasks;
    for (const { job, take } of answered) take(runJob(job));
    step = work.next(isLast);
  }
  return step.value;
}
