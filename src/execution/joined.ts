import { Collector } from './collector.js';
import type { Wants } from './batch.js';
import type { JobResult } from './job.js';

/** Results of consecutive segments of a job, put together as they come. */
export class Joined {
  private readonly parts: Collector[] = [];

  constructor(private readonly wants: Wants) {}

  append(result: JobResult): void {
    for (const [part, batch] of result.entries()) {
      this.parts[part] ??= new Collector(this.wants);
      this.parts[part].append(batch);
    }
  }

  get result(): JobResult {
    return this.parts.map((part) => part.batch());
  }
}
