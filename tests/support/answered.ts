import type { Runs } from '../../src/study/runs.js';
import { alone } from '../../src/study/work/alone.js';
import { answered, type Work } from '../../src/study/work/work.js';

/** Runs on, in place, until there are so many replications. */
export function upTo<Some extends Runs>(runs: Some, replications: number): Some {
  alone(answered(runs.errandsTo(replications)));
  return runs;
}

/** What work comes to whose orders are carried out in place. */
export function resultOf<Result>(work: Work<Result>): Result {
  return alone(work);
}
