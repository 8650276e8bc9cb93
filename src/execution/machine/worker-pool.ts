import { Tinypool } from 'tinypool';
import { EXIT, Failure, StoppedByHand, systemCode } from '../../scenario/failure.js';
import type { JobResult, Task } from '../job.js';
import { Stopped, type Work } from '../work.js';
import { chunksOf, type Segment } from './chunks.js';
import { pack, type PackedJob } from './packed.js';

const CODES = { SIGINT: EXIT.interrupted, SIGTERM: EXIT.terminated } as const;
type Signal = keyof typeof CODES;
const SIGNALS = ['SIGINT', 'SIGTERM'] as const;

/** Messages that lie ready at each thread, so that it need not wait for the next one while this thread is busy. */
const READY = 2;
/** Chunks that are made for each thread before one of them must have ended. */
const AHEAD = READY + 1;

/** Jobs for a thread; its answer is their results in their order. */
export interface JobsMessage {
  readonly kind: 'jobs';
  readonly jobs: readonly PackedJob[];
}

/** Has a thread answer a message; what it makes of messages that are no jobs is its own matter. */
export type Perform = (message: { readonly kind: string }) => Promise<unknown>;

/**
 * The worker threads of one command, beside the one that reads signals and shows progress. They end within a moment when
 * somebody asks for it: by Ctrl-C, or as the system does. What is complete by then is concluded; a second request ends the
 * program at once.
 */
export class WorkerPool {
  private signal: Signal | null = null;
  private threads: Tinypool | null = null;
  private isOver = false;
  private letGo: (none: null) => void = () => undefined;
  /** Comes about when somebody stops the study. */
  private readonly halted = new Promise<null>((resolve) => {
    this.letGo = resolve;
  });
  private giveUp: (error: unknown) => void = () => undefined;
  /** Never comes about, but for a thread that dies with nothing to do. */
  private readonly failed = new Promise<never>((_, reject) => {
    this.giveUp = reject;
  });

  /**
   * @param count of threads, which begin with the first work
   * @param complain tells a person at once
   */
  constructor(
    private readonly count: number,
    private readonly complain: (text: string) => void,
  ) {
    this.failed.catch(() => undefined);
  }

  /**
   * Runs a study, or concludes what is complete of it when somebody stops it.
   * @throws StoppedByHand where that is nothing
   * @throws what went wrong in a campaign or in the study
   */
  async run<Result>(work: Work<Result>): Promise<Result> {
    for (const signal of SIGNALS) process.on(signal, this.heed);
    try {
      for (let step = work.next(false); ; step = work.next(this.isStopped)) {
        if (step.done === true) return step.value;
        if (!this.isStopped) await this.complete(step.value);
      }
    } catch (error) {
      await this.end();
      if (!(error instanceof Stopped) || this.signal === null) throw error;
      throw new StoppedByHand('before there was anything to say; no report was written', CODES[this.signal]);
    }
  }

  /** Makes something on threads, and lets them go; without them where somebody stops that, or stopped the study. */
  async finish<Made>(make: (perform: Perform | null) => Promise<Made>): Promise<Made> {
    try {
      if (this.isStopped) return await make(null);
      const whole = make(this.perform);
      const made = await Promise.race([whole, this.halted]);
      if (made !== null) return made;
      // What was being made comes to nothing.
      whole.catch(() => undefined);
      return await make(null);
    } finally {
      await this.end();
    }
  }

  /** Lets the threads go, and signals do what they do to every program. */
  async end(): Promise<void> {
    this.isOver = true;
    this.deafen();
    await this.threads?.destroy();
  }

  /** Whether somebody stopped the study or its report. */
  get isStopped(): boolean {
    return this.signal !== null;
  }

  /** @throws StoppedByHand where somebody stopped the study or its report */
  sayWhetherStopped(folder: string): void {
    if (this.signal === null) return;
    throw new StoppedByHand(`what is complete of it stands in ${folder}, without pictures`, CODES[this.signal]);
  }

  private async complete(tasks: Iterable<Task>): Promise<void> {
    const running = new Set<Promise<void>>();
    for (const chunk of chunksOf(tasks, this.count)) {
      const run: Promise<void> = this.runChunk(chunk).finally(() => running.delete(run));
      running.add(run);
      // Where the study itself fails meanwhile, nobody waits for what is still running.
      run.catch(() => undefined);
      if (running.size >= AHEAD * this.count) await Promise.race([...running, this.halted]);
      if (this.isStopped) return;
    }
    // That all threads have ended takes longer than what is to be said meanwhile.
    await Promise.race([Promise.all(running), this.halted]);
  }

  private async runChunk(chunk: readonly Segment[]): Promise<void> {
    const message: JobsMessage = { kind: 'jobs', jobs: chunk.map(({ job }) => pack(job)) };
    try {
      const results = await this.perform(message);
      if (!isResults(results)) throw new Error('these are no results');
      // What comes when the study is concluded comes too late.
      if (this.isStopped) return;
      results.forEach((result, place) => {
        chunk[place].put(result);
      });
    } catch (error) {
      // A thread that was stopped has nothing to say.
      if (!this.isStopped) throw error;
    }
  }

  private readonly perform: Perform = async (message) => {
    if (this.isOver || this.isStopped) throw new Stopped();
    try {
      this.threads ??= this.begin();
      const answer: unknown = await Promise.race([this.threads.run(message), this.failed]);
      return answer;
    } catch (error) {
      if (systemCode(error) !== 'ERR_WORKER_OUT_OF_MEMORY') throw error;
      throw new Failure(
        'a thread has used up all memory that it may have; fewer threads (--threads 1) need less',
        EXIT.failed,
      );
    }
  };

  /** What threads need is read while the first job is made. */
  private begin(): Tinypool {
    const threads = new Tinypool({
      filename: new URL('../../bundled/worker.js', import.meta.url).href,
      ...{ runtime: 'worker_threads', minThreads: this.count, maxThreads: this.count },
      concurrentTasksPerWorker: READY,
    });
    threads.on('error', this.giveUp);
    return threads;
  }

  private readonly heed = (signal: Signal): void => {
    this.signal = signal;
    this.deafen();
    this.letGo(null);
    // They end in the middle of their work.
    void this.threads?.destroy();
    this.complain('stopping at what is complete');
  };

  private deafen(): void {
    for (const signal of SIGNALS) process.off(signal, this.heed);
  }
}

function isResults(value: unknown): value is readonly JobResult[] {
  return Array.isArray(value);
}
