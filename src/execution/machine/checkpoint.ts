import { randomBytes } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, rmdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { Failure, systemCode } from '../../scenario/failure.js';
import type { Cache, CachedSegment } from '../cache.js';
import type { Job, JobResult } from '../job.js';
import { KnownResults } from './known-results.js';
import { PendingResults } from './pending-results.js';
import { programHash } from './program-hash.js';
import { Broken, openResultFile, resultFile } from './result-file.js';
import { writeWholeFile } from './whole-file.js';

/** Milliseconds before which nothing is kept but what is too much to hold. */
const SHORT = 3000;
/** Milliseconds between two files at least, and as a share of the time since the start: long runs make few files. */
const PAUSE = { least: 1000, share: 0.02 };
/** So many numbers are written at once all the same: they take memory, and to write more would keep a person waiting. */
const MOST_NUMBERS = 500_000;
const FILE = /^[0-9a-f]{24}\.results$/;
/** One that is being written, or was when its run was killed. */
const UNFINISHED = /^\.[0-9a-f]{24}\.results\..+\.writing$/;

/**
 * What a run has done so far, kept in a hidden folder beside its report until that is written: whoever runs the same again
 * after it was killed goes on from there. A result is taken over by the key of its job, only from a whole file, and only from
 * this very program; whatever else lies there is as if it were not. That nothing can be written there stops no run.
 */
export class Checkpoint implements Cache {
  private readonly start = performance.now();
  private last = this.start;
  private readonly results = new KnownResults();
  private readonly pending = new PendingResults();
  private isWritable = true;
  private taken = 0;

  /** Reads what an earlier run left in the folder, if it is there. */
  constructor(private readonly folder: string) {
    for (const file of filesIn(folder, FILE)) this.read(file);
  }

  /** Campaigns that were taken over so far. */
  get takenOver(): number {
    return this.taken;
  }

  readonly known = (job: Job): readonly CachedSegment[] => this.results.of(job);

  readonly keep = (segment: Job, result: JobResult): void => {
    if (!this.isWritable) return;
    this.pending.add(segment, result);
    const now = performance.now();
    const pause = Math.max(PAUSE.least, PAUSE.share * (now - this.start));
    const isDue = now - this.start >= SHORT && now - this.last >= pause;
    if (isDue || this.pending.numbers >= MOST_NUMBERS) this.write();
  };

  /** Writes what is not written yet, unless the run was a short one. */
  flush(): void {
    if (performance.now() - this.start >= SHORT) this.write();
  }

  private write(): void {
    const results = this.pending.takeAll();
    if (results.length === 0) return;
    try {
      mkdirSync(this.folder, { recursive: true });
      // A kill in here leaves nothing under a name that is read.
      writeWholeFile(
        join(this.folder, `${randomBytes(12).toString('hex')}.results`),
        resultFile({ program: programHash() }, results),
      );
    } catch (error) {
      if (!(error instanceof Failure) && systemCode(error) === undefined) throw error;
      this.isWritable = false;
    }
    this.last = performance.now();
  }

  /** Takes over what is in a file; nothing where it is not whole, or another program's. */
  private read(file: string): void {
    try {
      const { notes, segments, read } = openResultFile(readFileSync(file));
      if (notes['program'] !== programHash()) return;
      for (const [place, { key, from, to }] of segments.entries()) {
        const result = read(place);
        this.results.add(key, { from, to, read: () => this.takeOver(result) });
      }
    } catch (error) {
      if (!(error instanceof Broken) && systemCode(error) === undefined) throw error;
    }
  }

  private takeOver(result: JobResult): JobResult {
    for (const { count } of result) this.taken += count;
    return result;
  }
}

/** Takes the checkpoint in a folder away: what it is for is written. */
export function removeCheckpoint(folder: string): void {
  try {
    for (const name of [FILE, UNFINISHED]) for (const file of filesIn(folder, name)) rmSync(file, { force: true });
    rmdirSync(folder);
  } catch (error) {
    // It was never made, another run writes into it, or a person laid something there.
    if (systemCode(error) === undefined) throw error;
  }
}

function filesIn(folder: string, names: RegExp): readonly string[] {
  try {
    return readdirSync(folder)
      .filter((name) => names.test(name))
      .sort()
      .map((name) => join(folder, name));
  } catch (error) {
    if (systemCode(error) === undefined) throw error;
    return [];
  }
}
