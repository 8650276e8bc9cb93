import { randomBytes } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, rmdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import type { Answer, Order } from '../study/work/order.js';
import type { KnownStretch, Memory } from '../study/work/recalled.js';
import { Failure, systemCode } from './failure.js';
import { type Kept, keptFile, openKept } from './kept/kept-file.js';
import { KnownAnswers } from './kept/known.js';
import { PendingAnswers } from './kept/pending.js';
import { programHash } from './kept/program.js';
import { Broken } from './kept/seal.js';
import { writeWholeFile } from './whole-file.js';

/** Milliseconds before which nothing is kept but what is too much to hold. */
const SHORT = 3000;
/** Milliseconds between two files at least, and as a share of the time since the start: long runs make few files. */
const PAUSE = { least: 1000, share: 0.02 };
/** So many numbers are written at once all the same: they take memory, and to write more would keep a person waiting. */
const MOST_NUMBERS = 500_000;
const FILE = /^[0-9a-f]{24}\.parquet$/;
/** One that is being written, or was when its run was killed. */
const UNFINISHED = /^\.[0-9a-f]{24}\.parquet\..+\.writing$/;
const PROGRAM = 'swap-or-hop.program';

/**
 * What a run has done so far, kept in a hidden folder beside its report until that is written: whoever runs the same again
 * after it was killed goes on from there. An answer is taken over by the key of its order, only from a whole file, and only
 * from this very program; whatever else lies there is as if it were not. That nothing can be written there stops no run.
 */
export class Journal implements Memory {
  private readonly start = performance.now();
  private last = this.start;
  private readonly pending = new PendingAnswers();
  private isWritable = true;

  private constructor(
    private readonly folder: string,
    private readonly answers: KnownAnswers,
  ) {}

  /** Reads what an earlier run left in the folder, if it is there. */
  static async open(folder: string): Promise<Journal> {
    const answers = new KnownAnswers();
    for (const file of filesIn(folder, FILE)) for (const kept of await answersIn(file)) answers.add(kept);
    return new Journal(folder, answers);
  }

  /** Campaigns that were taken over so far. */
  get takenOver(): number {
    return this.answers.count;
  }

  readonly known = (order: Order): readonly KnownStretch[] => this.answers.of(order);

  readonly keep = (stretch: Order, answer: Answer): void => {
    if (!this.isWritable) return;
    this.pending.add(stretch, answer);
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
    const answers = this.pending.takeAll();
    if (answers.length === 0) return;
    const bytes = keptFile({ [PROGRAM]: programHash() }, answers, 'quick');
    try {
      mkdirSync(this.folder, { recursive: true });
      // A kill in here leaves nothing under a name that is read.
      writeWholeFile(join(this.folder, `${randomBytes(12).toString('hex')}.parquet`), bytes);
    } catch (error) {
      if (!(error instanceof Failure) && systemCode(error) === undefined) throw error;
      this.isWritable = false;
    }
    this.last = performance.now();
  }
}

/** Takes the journal in a folder away: what it is for is written. */
export function removeJournal(folder: string): void {
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

/** The answers in a file; none where it is not whole, or another program's. */
async function answersIn(file: string): Promise<readonly Kept[]> {
  try {
    const { notes, stretches, read } = openKept(readFileSync(file));
    if (notes[PROGRAM] !== programHash()) return [];
    const answers: Kept[] = [];
    for (const [place, head] of stretches.entries()) answers.push({ ...head, answer: await read(place) });
    return answers;
  } catch (error) {
    if (error instanceof Broken || systemCode(error) !== undefined) return [];
    throw error;
  }
}
