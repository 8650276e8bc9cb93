import type { Batch, Wants } from './batch.js';
import type { Experiment } from './experiment.js';

/**
 * Replications `from` to `to` of an experiment, both of them included and numbered from 1, on the random streams of a seed.
 * Plain data that says all that the result depends on, so that it can be sent to another thread or machine, and a result
 * that was stored beside it is as good as one computed. Cut into shorter segments it gives the same numbers.
 */
export interface Job {
  readonly experiment: Experiment;
  readonly seed: string;
  readonly from: number;
  readonly to: number;
  readonly wants: Wants;
}

/** What a job or a segment of it came to: a batch for each strategy of its experiment. */
export type JobResult = readonly Batch[];

/** A job with the one who waits for its result. */
export interface Task {
  readonly job: Job;
  /**
   * Is given the result in segments, in the order of replications and without a gap. Into how many segments a job is cut,
   * and when other tasks are done, says nothing.
   */
  readonly take: (result: JobResult) => void;
}

export function replicationsOf({ from, to }: Pick<Job, 'from' | 'to'>): number {
  return to - from + 1;
}

/** A job in segments of at most so many replications. */
export function segmentsOf(job: Job, most: number): readonly Job[] {
  return Array.from({ length: Math.max(0, Math.ceil(replicationsOf(job) / most)) }, (_, i) => {
    const from = job.from + i * most;
    return { ...job, from, to: Math.min(job.to, from + most - 1) };
  });
}
