import { type Job, type JobResult, replicationsOf } from './job.js';
import { Joined } from './joined.js';
import { completed, type Work } from './work.js';

/** Number `number` (from 1) of `of` shares of the replications of a study. */
export interface Share {
  readonly number: number;
  readonly of: number;
}

/** The share of a job's replications; together the shares are all of them, and none is twice. Null where it is empty. */
export function shareOf(job: Job, { number, of }: Share): Job | null {
  const count = replicationsOf(job);
  const from = job.from + Math.floor((count * (number - 1)) / of);
  const to = job.from + Math.floor((count * number) / of) - 1;
  return from > to ? null : { ...job, from, to };
}

export interface CompletedJob {
  readonly job: Job;
  readonly result: JobResult;
}

/**
 * The jobs that a study begins with, run for one share of their replications; they do not depend on any result, so all
 * shares together are what the study goes on from.
 * @throws Stopped where it was interrupted
 */
export function* shareWork(study: Work<unknown>, share: Share): Work<readonly CompletedJob[]> {
  const begun = study.next(false);
  const shared = (begun.done === true ? [] : [...begun.value]).flatMap((task) => {
    const job = shareOf(task.job, share);
    return job === null ? [] : [{ job, joined: new Joined(job.wants) }];
  });
  yield* completed(
    shared.map(({ job, joined }) => ({
      job,
      take: (result) => {
        joined.append(result);
      },
    })),
  );
  return shared.map(({ job, joined }) => ({ job, result: joined.result }));
}
