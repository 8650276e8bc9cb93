import { describe, expect, it } from 'vitest';
import { LuckTable } from '../../src/chance/luck.js';
import { stoppedWithin } from '../../src/analysis/interrupted.js';
import { Collector } from '../../src/execution/collector.js';
import { replicate } from '../../src/execution/replicate.js';
import type { Batch } from '../../src/execution/batch.js';
import { runTo } from '../../src/execution/run-to.js';
import { plainModel } from '../support/scene.js';
import { nonEmpty } from '../support/non-empty.js';

const WANTS = { sums: true };
const runnable = { name: 'one', model: plainModel({ regions: 3 }) };
const luck = new LuckTable('mark');

/** Replications from one to another, in a collector of their own. */
function collected(from: number, to: number): Collector {
  const collector = new Collector(WANTS);
  for (let replication = from; replication <= to; replication += 1)
    collector.add(replicate(runnable, luck, replication));
  return collector;
}

describe('a study that somebody stops', () => {
  it('speaks of what there was at its mark as if there were no more', () => {
    const collector = new Collector(WANTS);
    expect(collector.toMark).toBe(collector);
    collector.append(collected(1, 5).batch());
    collector.setMark();
    collector.append(collected(6, 9).batch());
    // The first mark counts.
    collector.setMark();
    expect(collector.count).toBe(9);
    expect(collector.toMark.batch()).toEqual(collected(1, 5).batch());
    expect(collector.toMark.values).toEqual(collected(1, 5).values);
    expect(collector.toMark.split).toEqual(collected(1, 5).split);
    expect(collector.batch()).toEqual(collected(1, 9).batch());
  });

  it('speaks of the first ones of very many', () => {
    const collectors = [new Collector(), new Collector()];
    const experiment = { kind: 'strategies' as const, strategies: [] };
    const { take } = runTo(1_000_000, { experiment, seed: 'mark', wants: {} }, collectors, undefined);
    const batch = (count: number): Batch => ({ count, columns: { yield: new Float64Array(count) }, sums: null });
    for (const count of [300_000, 300_000, 400_000]) take([batch(count), batch(count)]);
    for (const collector of nonEmpty(collectors))
      expect([collector.toMark.count, collector.count]).toEqual([600_000, 1_000_000]);
  });

  it('says how many more are complete', () => {
    expect(stoppedWithin(600_000, null, 2, 1_000_000)).toBe(
      'interrupted after 600000 replications, the first of 1000000 that are complete, before all were run',
    );
    expect(stoppedWithin(7, 'that', 2, 7)).toBe('interrupted after 7 replications, before all were run; that');
  });
});
