import { imagesOf } from '../experiment.js';
import { InOrder } from '../in-order.js';
import { type Job, replicationsOf, segmentsOf, type Task } from '../job.js';

/** A segment of a task's job, and where its result goes. */
export interface Segment {
  readonly job: Job;
  readonly put: Task['take'];
}

/** Images for which it is worth to hand a chunk to a thread: a few milliseconds of work. */
const LEAST = 600;
/** Images of a chunk of a large job. */
const MOST = 60_000;
/** Chunks that a large job makes for each thread, so that all of them end at about the same time. */
const CHUNKS = 8;

/**
 * Tasks as chunks for threads: jobs of many replications cut into segments, those of few put together. Results reach each
 * task in the order of its replications, whichever segment is done first.
 */
export function* chunksOf(tasks: Iterable<Task>, threads: number): Generator<readonly Segment[]> {
  let chunk: Segment[] = [];
  let weight = 0;
  for (const { job, take } of tasks) {
    const images = imagesOf(job.experiment);
    const wanted = Math.min(MOST, Math.max(LEAST, (images * replicationsOf(job)) / (CHUNKS * threads)));
    const inOrder = new InOrder(take);
    for (const segment of segmentsOf(job, Math.max(1, Math.floor(wanted / images)))) {
      chunk.push({ job: segment, put: inOrder.awaited(replicationsOf(segment)) });
      weight += images * replicationsOf(segment);
      if (weight < LEAST) continue;
      yield chunk;
      [chunk, weight] = [[], 0];
    }
  }
  if (chunk.length > 0) yield chunk;
}
