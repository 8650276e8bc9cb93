import { describe, expect, it } from 'vitest';
import type { JobResult, Task, Job } from '../../src/execution/job.js';
import { completed, Stopped, together, type Work } from '../../src/execution/work.js';

const ANSWER: JobResult = [{ count: 1, columns: {}, sums: null }];

/** A task of one replication, told apart by its number. */
function task(number: number, take: Task['take'] = () => undefined): Task {
  const job: Job = {
    experiment: { kind: 'strategies', strategies: [] },
    ...{ seed: 'seed', from: number, to: number, wants: {} },
  };
  return { job, take };
}

/** Work that has so many tasks run, one a round, and tells how often it was answered. */
function* rounds(name: number, count: number): Work<string> {
  let taken = 0;
  for (let round = 0; round < count; round += 1)
    yield* completed([
      task(10 * name + round, () => {
        taken += 1;
      }),
    ]);
  return `${name} took ${taken}`;
}

/** Answers all tasks; gives the result, and of each round the numbers of its tasks. */
function driven<Result>(work: Work<Result>): {
  readonly result: Result;
  readonly seen: readonly (readonly number[])[];
} {
  const seen: number[][] = [];
  for (let step = work.next(false); ; step = work.next(false)) {
    if (step.done === true) return { result: step.value, seen };
    const round = [...step.value];
    for (const { take } of round) take(ANSWER);
    seen.push(round.map(({ job }) => job.from));
  }
}

describe('works side by side', () => {
  it('go on together, round by round, and give their results in their own order', () => {
    const { result, seen } = driven(together([rounds(1, 3), rounds(2, 1), rounds(3, 2)]));
    expect(result).toEqual(['1 took 3', '2 took 1', '3 took 2']);
    expect(seen.filter(({ length }) => length > 0)).toEqual([[10, 20, 30], [11, 31], [12]]);
  });

  it('begin no more at once than they may, and come to the same', () => {
    const { result, seen } = driven(together([rounds(1, 2), rounds(2, 2), rounds(3, 1), rounds(4, 0)], 2));
    expect(result).toEqual(['1 took 2', '2 took 2', '3 took 1', '4 took 0']);
    expect(Math.max(...seen.map(({ length }) => length))).toBe(2);
  });

  it('are nothing where there are none', () => {
    expect(driven(together([])).result).toEqual([]);
  });

  it('all end where they are stopped, also those of which nobody asked for a task yet', () => {
    const work = together([rounds(1, 2), rounds(2, 2)]);
    const step = work.next(false);
    if (step.done === true) throw new Error('it has tasks');
    const [first] = step.value;
    expect(first.job.from).toBe(10);
    expect(() => work.next(true)).toThrow(Stopped);
  });
});
