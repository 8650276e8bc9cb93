import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Collector } from '../../src/execution/collector.js';
import { runJob } from '../../src/execution/in-process.js';
import type { JobResult, Task, Job } from '../../src/execution/job.js';
import { type Cache, withCache } from '../../src/execution/cache.js';
import type { Work } from '../../src/execution/work.js';
import { KNOWN_TEXT, loadedFrom } from '../support/known-break-even.js';

const { strategies } = loadedFrom(KNOWN_TEXT);
const job: Job = {
  experiment: { kind: 'strategies', strategies },
  ...{ seed: 'recalled', from: 1, to: 12, wants: { sums: true } },
};
const everything = runJob(job);

/** Collects one job, and counts the stretches that came. */
function* study(): Work<JobResult> {
  const collectors = strategies.map(() => new Collector(job.wants));
  const take: Task['take'] = (answer) => {
    answer.forEach((batch, i) => {
      collectors[i].append(batch);
    });
  };
  yield [{ job, take }];
  return collectors.map((collector) => collector.batch());
}

const singles = Array.from({ length: job.to }, (_, i) => runJob({ ...job, from: i + 1, to: i + 1 }));

function stretch(from: number, to: number) {
  return { from, to, read: () => (from === to ? singles[from - 1] : runJob({ ...job, from, to })) };
}

/** Carries out what is asked, the last first and each replication by itself, and gives what was asked for. */
function backwards<Result>(work: Work<Result>): { result: Result; asked: readonly (readonly [number, number])[] } {
  const asked: (readonly [number, number])[] = [];
  for (let step = work.next(false); ; step = work.next(false)) {
    if (step.done === true) return { result: step.value, asked };
    const tasks = [...step.value];
    for (const each of tasks) asked.push([each.job.from, each.job.to]);
    for (const { job: ordered, take } of tasks.reverse())
      for (let i = ordered.from; i <= ordered.to; i += 1) take(singles[i - 1]);
  }
}

function remembering(known: Cache['known']): Cache & { readonly kept: (readonly [number, number])[] } {
  const kept: (readonly [number, number])[] = [];
  return { known, kept, keep: ({ from, to }) => kept.push([from, to]) };
}

describe('work with a memory', () => {
  it('asks only for parameter uncertainty, and comes to the same', () => {
    const memory = remembering(() => [stretch(1, 2), stretch(5, 7), stretch(12, 12)]);
    const { result, asked } = backwards(withCache(study(), memory));
    expect(asked).toEqual([
      [3, 4],
      [8, 11],
    ]);
    expect(result).toEqual(everything);
  });

  it('comes to the same whatever is known', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: 12 })), (known) => {
        const memory = remembering(() => known.toSorted((a, b) => a - b).map((at) => stretch(at, at)));
        const { result, asked } = backwards(withCache(study(), memory));
        expect(result).toEqual(everything);
        const run = asked.flatMap(([from, to]) => Array.from({ length: to - from + 1 }, (_, i) => from + i));
        expect([...run, ...known].sort((a, b) => a - b)).toEqual(Array.from({ length: 12 }, (_, i) => i + 1));
      }),
      { numRuns: 60, seed: 6 },
    );
  });

  it('tells its memory of each stretch that was carried out, and of no other', () => {
    const memory = remembering(() => [stretch(2, 10)]);
    backwards(withCache(study(), memory));
    expect(memory.kept).toEqual([
      [11, 11],
      [12, 12],
      [1, 1],
    ]);
  });

  it('hands over without a gap where it is interrupted', () => {
    const work = withCache(
      study(),
      remembering(() => [stretch(1, 3), stretch(6, 12)]),
    );
    const first = work.next(false);
    if (first.done === true) throw new Error('it asked for nothing');
    for (const { job: ordered, take } of first.value) take(runJob({ ...ordered, to: ordered.from }));
    const last = work.next(true);
    expect(last.value).toEqual(runJob({ ...job, to: 4 }));
  });
});
