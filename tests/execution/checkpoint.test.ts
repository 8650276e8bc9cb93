import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runJob } from '../../src/execution/in-process.js';
import type { Job } from '../../src/execution/job.js';
import { Checkpoint, removeCheckpoint } from '../../src/execution/machine/checkpoint.js';
import { jobKey } from '../../src/execution/machine/job-key.js';
import { KnownResults } from '../../src/execution/machine/known-results.js';
import { PendingResults } from '../../src/execution/machine/pending-results.js';
import { programHash } from '../../src/execution/machine/program-hash.js';
import { resultFile } from '../../src/execution/machine/result-file.js';
import { inEmptyFolder } from '../support/command.js';
import { KNOWN_TEXT, loadedFrom } from '../support/known-break-even.js';

const { strategies } = loadedFrom(KNOWN_TEXT);
const job: Job = {
  experiment: { kind: 'strategies', strategies },
  ...{ seed: 'journal', from: 1, to: 9, wants: { sums: true } },
};

const segments = (known: readonly { readonly from: number; readonly to: number }[]) =>
  known.map(({ from, to }) => [from, to]);

describe('a checkpoint', () => {
  it('takes over what this program wrote down, and nothing of another one', async () => {
    await inEmptyFolder((folder) => {
      for (const [name, program, at] of [
        ['0', programHash(), 2],
        ['1', 'another', 3],
      ] as const) {
        const part = { ...job, from: at, to: at };
        const file = resultFile({ program }, [{ job: part, result: runJob(part) }]);
        writeFileSync(join(folder, `${name.repeat(24)}.results`), Buffer.concat([...file]));
      }
      const checkpoint = new Checkpoint(folder);
      expect(segments(checkpoint.known({ ...job, seed: 'another' }))).toEqual([]);
      const known = checkpoint.known(job);
      expect(segments(known)).toEqual([[2, 2]]);
      expect(known[0].read()).toEqual(runJob({ ...job, from: 2, to: 2 }));
      expect(checkpoint.takenOver).toBe(2);
      return Promise.resolve();
    });
  });

  it('is nothing where there is none, and goes without what a person laid there', async () => {
    await inEmptyFolder((folder) => {
      const place = join(folder, '.report.unfinished');
      expect(segments(new Checkpoint(place).known(job))).toEqual([]);
      removeCheckpoint(place);
      mkdirSync(place);
      writeFileSync(join(place, 'letter.txt'), '');
      writeFileSync(join(place, `${'a'.repeat(24)}.results`), '');
      removeCheckpoint(place);
      expect(readdirSync(place)).toEqual(['letter.txt']);
      return Promise.resolve();
    });
  });
});

describe('known results', () => {
  it('are those within the job, without overlap, and each of them once', () => {
    const results = new KnownResults();
    for (const [from, to] of [
      [4, 6],
      [1, 2],
      [6, 7],
      [8, 10],
    ] as const)
      results.add(jobKey(job), { from, to, read: () => [] });
    expect(segments(results.of(job))).toEqual([
      [1, 2],
      [4, 6],
    ]);
    expect(segments(results.of(job))).toEqual([[6, 7]]);
    expect(segments(results.of({ ...job, to: 10 }))).toEqual([[8, 10]]);
  });
});

describe('results that are not written yet', () => {
  it('are put together where they follow upon each other, in whichever order they came', () => {
    const pending = new PendingResults();
    for (const from of [1, 2, 5, 3, 6]) {
      const segment = { ...job, from, to: from };
      pending.add(segment, runJob(segment));
    }
    const all = pending.takeAll();
    expect(segments(all.map((each) => each.job))).toEqual([
      [1, 3],
      [5, 6],
    ]);
    expect(all[0].result).toEqual(runJob({ ...job, from: 1, to: 3 }));
    expect(pending.numbers).toBe(0);
    expect(pending.takeAll()).toEqual([]);
  });
});
