import type { CachedSegment } from '../cache.js';
import type { Job } from '../job.js';
import { jobKey } from './job-key.js';

/** Results by the keys of their jobs; each of them is given out once. */
export class KnownResults {
  private readonly byKey = new Map<string, CachedSegment[]>();

  add(key: string, segment: CachedSegment): void {
    const found = this.byKey.get(key);
    if (found === undefined) this.byKey.set(key, [segment]);
    else found.push(segment);
  }

  /** Segments that lie within a job and do not overlap, in the order of replications. */
  of(job: Job): readonly CachedSegment[] {
    if (this.byKey.size === 0) return [];
    const found = this.byKey.get(jobKey(job)) ?? [];
    let next = job.from;
    const fitting: CachedSegment[] = [];
    for (const segment of found.toSorted((a, b) => a.from - b.from)) {
      if (segment.from < next || segment.to > job.to) continue;
      fitting.push(segment);
      next = segment.to + 1;
    }
    for (const segment of fitting) found.splice(found.indexOf(segment), 1);
    return fitting;
  }
}
