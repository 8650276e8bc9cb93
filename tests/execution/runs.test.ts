import { describe, expect, it } from 'vitest';
import { LuckTable } from '../../src/chance/luck.js';
import { Pool } from '../../src/execution/pool.js';
import { replicate, type Runnable, runnable } from '../../src/execution/replicate.js';
import { MEASURES } from '../../src/execution/measures.js';
import { Runs } from '../../src/execution/runs.js';
import { applySettings } from '../../src/analysis/vary/varied.js';
import { upTo } from '../support/answered.js';
import { KNOWN_TEXT, loadedFrom } from '../support/known-break-even.js';

const loaded = loadedFrom(KNOWN_TEXT);
const seed = 'runs';
const table = new LuckTable(seed);
const [swap, hop] = runnable(loaded.strategies);

function changed(path: string, setting: string | number): readonly Runnable[] {
  const applied = applySettings(loaded, [[path, setting]]);
  if (!applied.ok) throw new Error(applied.message);
  return runnable(applied.scenario.strategies);
}

describe('the runs of a strategy', () => {
  it('hold replication i at index i - 1, in whichever steps they were asked for', () => {
    const runs = upTo(upTo(new Runs(swap, seed), 3), 8);
    expect(runs.count).toBe(8);
    for (let replication = 1; replication <= 8; replication += 1) {
      const outcome = replicate(swap, table, replication);
      for (const measure of MEASURES) expect(runs.values[measure][replication - 1]).toBe(outcome[measure]);
      expect(runs.finishedAt[replication - 1]).toBe(outcome.isFinished ? outcome.totalTime : NaN);
    }
    expect(runs.values.totalTime).toHaveLength(8);
  });

  it('stay as they are where fewer are asked for', () => {
    const runs = upTo(new Runs(swap, seed), 5);
    const before = [...runs.values.totalTime];
    expect([...upTo(runs, 2).values.totalTime]).toEqual(before);
    expect(runs.count).toBe(5);
  });
});

describe('a pool of runs', () => {
  it('runs once what is alike, whatever it is called and however the scenario came to it', () => {
    const pool = new Pool(seed);
    const runs = pool.runsOf(swap);
    expect(pool.runsOf({ ...swap, name: 'by another name' })).toBe(runs);
    expect(pool.runsOf(changed('plan.regions', loaded.base.plan.regions)[0])).toBe(runs);
    upTo(runs, 4);
    upTo(pool.runsOf(swap), 4);
    expect(pool.campaigns).toBe(4);
  });

  it('runs apart the two workflows, and what a setting changes', () => {
    const pool = new Pool(seed);
    const [otherSwap] = changed('plan.regions', loaded.base.plan.regions + 1);
    const all = [swap, hop, otherSwap].map((strategy) => upTo(pool.runsOf(strategy), 3));
    expect(new Set(all).size).toBe(3);
    expect(pool.campaigns).toBe(9);
  });
});
