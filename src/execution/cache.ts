import { InOrder } from './in-order.js';
import { type Job, type JobResult, replicationsOf, type Task } from './job.js';
import type { Work } from './work.js';

/** A segment of a job whose result is there already. */
export interface CachedSegment {
  readonly from: number;
  readonly to: number;
  /** Gives the result; called once at most. */
  readonly read: () => JobResult;
}

/** Results of earlier runs, and what becomes of new ones. */
export interface Cache {
  /** What is known of a job: segments of it in the order of replications, apart from each other. */
  readonly known: (job: Job) => readonly CachedSegment[];
  /** Is told of every segment that was run. */
  readonly keep: (segment: Job, result: JobResult) => void;
}

/** The same work, which has only that run which is not known yet. As a result depends on its job alone, it is the same to the byte. */
export function* withCache<Result>(work: Work<Result>, cache: Cache): Work<Result> {
  let step = work.next(false);
  while (step.done !== true) step = work.next(yield unknownOf(step.value, cache));
  return step.value;
}

function* unknownOf(tasks: Iterable<Task>, cache: Cache): Generator<Task> {
  for (const { job, take } of tasks) {
    const inOrder = new InOrder(take);
    let next = job.from;
    for (const { from, to, read } of cache.known(job)) {
      if (from > next) yield kept({ ...job, from: next, to: from - 1 }, inOrder, cache);
      inOrder.known(read);
      next = to + 1;
    }
    if (next <= job.to) yield kept({ ...job, from: next }, inOrder, cache);
  }
}

function kept(job: Job, inOrder: InOrder, cache: Cache): Task {
  const put = inOrder.awaited(replicationsOf(job));
  let { from } = job;
  return {
    job,
    take: (result) => {
      const to = from + result[0].count - 1;
      cache.keep({ ...job, from, to }, result);
      from = to + 1;
      put(result);
    },
  };
}
