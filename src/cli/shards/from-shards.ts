import { goingOn, shareOf } from '../../study/work/share.js';
import type { Work } from '../../study/work/work.js';
import { Failure } from '../failure.js';
import { answersTo, type Shard } from './open.js';

/**
 * Answers the orders that a study begins with out of its shards, and gives the rest of it as work. One shard is held in
 * memory at a time.
 * @param shards all of them, in order
 */
export async function fromShards<Result>(work: Work<Result>, shards: readonly Shard[]): Promise<Work<Result>> {
  const begun = work.next(false);
  for (const { order, take } of begun.done === true ? [] : begun.value) {
    for (const shard of shards) {
      const due = shareOf(order, shard.about.shard);
      let next = due?.from;
      for await (const { order: stretch, answer } of answersTo(order, shard)) {
        if (stretch.from !== next) break;
        take(answer);
        next = stretch.to + 1;
      }
      if (due !== null && next !== due.to + 1)
        throw new Failure(`${shard.file}: it does not hold replications ${due.from} to ${due.to} of this study`);
    }
  }
  return goingOn(work);
}
