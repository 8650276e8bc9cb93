import { Collector } from './collector.js';
import { runnerOf } from './experiment.js';
import { type Job, type JobResult, replicationsOf, segmentsOf } from './job.js';
import type { Work } from './work.js';

/** Replications of a segment; the study hears of its progress as often. */
const SEGMENT = 64;

/** Runs a study in place, job after job, and gives its result. */
export function runInProcess<Result>(work: Work<Result>): Result {
  for (let step = work.next(false); ; step = work.next(false)) {
    if (step.done === true) return step.value;
    for (const { job, take } of step.value) for (const segment of segmentsOf(job, SEGMENT)) take(runJob(segment));
  }
}

/**
 * Runs a job here and now.
 * @throws Error that names the strategy and the replication in which something went wrong
 */
export function runJob(job: Job): JobResult {
  const { parts, run } = runnerOf(job.experiment, job.seed, job.wants);
  const collectors = Array.from({ length: parts }, () => new Collector(job.wants));
  for (const collector of collectors) collector.reserve(replicationsOf(job));
  for (let replication = job.from; replication <= job.to; replication += 1)
    run(replication, (part, outcome, more) => {
      collectors[part].add(outcome, more);
    });
  return collectors.map((collector) => collector.batch());
}
