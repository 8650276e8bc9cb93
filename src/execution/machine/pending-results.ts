import type { Job, JobResult } from '../job.js';
import { Joined } from '../joined.js';
import type { CompletedJob } from '../share.js';
import { jobKey } from './job-key.js';

/** A segment that grows while the next ones follow upon it. */
interface Growing {
  readonly job: Job;
  to: number;
  readonly joined: Joined;
}

/** Results that are not written yet; those of neighbouring segments are put together. */
export class PendingResults {
  /** By the key of the job, and the replication that follows. */
  private readonly growing = new Map<string, Growing>();
  private held = 0;

  /** How many numbers are held. */
  get numbers(): number {
    return this.held;
  }

  add(segment: Job, result: JobResult): void {
    const key = jobKey(segment);
    const { from, to, wants } = segment;
    const growing = this.growing.get(`${key} ${from}`) ?? { job: segment, to, joined: new Joined(wants) };
    growing.joined.append(result);
    growing.to = to;
    for (const { count, columns } of result) this.held += count * Object.keys(columns).length;
    this.growing.delete(`${key} ${from}`);
    this.growing.set(`${key} ${to + 1}`, growing);
  }

  /** Gives out everything, and is empty afterwards. */
  takeAll(): readonly CompletedJob[] {
    const all = Array.from(this.growing.values(), ({ job, to, joined }) => ({
      job: { ...job, to },
      result: joined.result,
    }));
    this.growing.clear();
    this.held = 0;
    return all;
  }
}
