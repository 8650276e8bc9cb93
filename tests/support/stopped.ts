import { carryOut } from '../../src/study/work/carry-out.js';
import type { Work } from '../../src/study/work/work.js';

/**
 * What work comes to that is stopped by hand in the round behind so many whole ones, with a share of that round's errands
 * answered.
 */
export function stoppedAfter<Result>(work: Work<Result>, rounds: number, share = 0.5): Result {
  let step = work.next(false);
  for (let round = 1; step.done !== true; round += 1) {
    const errands = [...step.value];
    const isLast = round > rounds;
    const answered = isLast ? errands.slice(0, Math.floor(share * errands.length)) : errands;
    for (const { order, take } of answered) take(carryOut(order));
    step = work.next(isLast);
  }
  return step.value;
}
