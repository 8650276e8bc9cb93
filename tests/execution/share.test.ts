import { describe, expect, it } from 'vitest';
import { type Cache, withCache } from '../../src/execution/cache.js';
import { Collector } from '../../src/execution/collector.js';
import { runInProcess, runJob } from '../../src/execution/in-process.js';
import type { Job } from '../../src/execution/job.js';
import { shareOf, shareWork } from '../../src/execution/share.js';
import type { Work } from '../../src/execution/work.js';
import { KNOWN_TEXT, loadedFrom } from '../support/known-break-even.js';

const { strategies } = loadedFrom(KNOWN_TEXT);
const job: Job = {
  experiment: { kind: 'strategies', strategies },
  seed: 'share',
  from: 4,
  to: 13,
  wants: { sums: true },
};

/** Two rounds of jobs, the second of which hangs on the first. */
function* study(): Work<readonly number[]> {
  const collector = new Collector(job.wants);
  const task = (from: number, to: number) => ({
    job: { ...job, from, to },
    take: (result: ReturnType<typeof runJob>) => {
      collector.append(result[0]);
    },
  });
  yield [task(1, 10)];
  yield [task(11, 11 + Math.floor(collector.values.tips[9]))];
  return [...collector.values.totalTime];
}

describe('shares of an order', () => {
  it('are all of its replications and each of them once, as even as can be', () => {
    for (let of = 1; of <= 14; of += 1) {
      const shares = Array.from({ length: of }, (_, i) => shareOf(job, { number: i + 1, of })).filter(
        (one) => one !== null,
      );
      const all = shares.flatMap(({ from, to }) => Array.from({ length: to - from + 1 }, (_, i) => from + i));
      expect(all).toEqual([4, 5, 6, 7, 8, 9, 10, 11, 12, 13]);
      const sizes = shares.map(({ from, to }) => to - from + 1);
      if (of <= 10) expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
    }
  });
});

describe('the share of a study', () => {
  it('answers what the study begins with, for its own replications', () => {
    const shared = runInProcess(shareWork(study(), { number: 2, of: 3 }));
    const second = { ...job, from: 4, to: 6 };
    expect(shared).toEqual([{ job: second, result: runJob(second) }]);
  });

  it('lets the study go on from all shares as if it had run alone', () => {
    const shared = [1, 2, 3].flatMap((number) => runInProcess(shareWork(study(), { number, of: 3 })));
    const asked: number[] = [];
    const shares: Cache = {
      known: ({ from }) =>
        from === 1 ? shared.map(({ job: { from, to }, result }) => ({ from, to, read: () => result })) : [],
      keep: ({ from }) => asked.push(from),
    };
    expect(runInProcess(withCache(study(), shares))).toEqual(runInProcess(study()));
    expect(asked).toEqual([11]);
  });
});
