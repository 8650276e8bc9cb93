import { serialize } from 'node:v8';
import { Tinypool } from 'tinypool';
import type { Draw } from '../../report/pictures.js';
import type { Answer, Errand, Play } from '../../study/work/order.js';
import type { Work } from '../../study/work/work.js';
import { EXIT, Failure, systemCode } from '../failure.js';
import { imagesOf, type Stretch, tasksOf } from './cut.js';
import type { PackedPlay, ThreadTask } from './message.js';

/** Tasks that lie ready at each thread, so that it need not wait for the next one while this thread is busy. */
const READY = 2;
/** Tasks that are made for each thread before one of them must have ended. */
const AHEAD = READY + 1;

/** Carries out a study's orders, and draws its pictures, on threads beside the one that reads signals and shows progress. */
export class Threads {
  private readonly pool: Tinypool;
  /** Never comes about, but for a thread that dies with nothing to do. */
  private readonly failed: Promise<never>;
  private stopped = false;
  private letGo: (none: null) => void = () => undefined;
  /** Comes about when they are stopped. */
  readonly halted = new Promise<null>((resolve) => {
    this.letGo = resolve;
  });

  /** Starts them at once; what they need is read while the first order is made. */
  constructor(private readonly count: number) {
    const filename = new URL('../../bundled/worker.js', import.meta.url).href;
    this.pool = new Tinypool({
      ...{ filename, runtime: 'worker_threads', minThreads: count, maxThreads: count },
      concurrentTasksPerWorker: READY,
    });
    this.failed = new Promise((_, reject) => {
      this.pool.on('error', reject);
    });
    this.failed.catch(() => undefined);
  }

  /** Whether they were stopped by hand. */
  get isStopped(): boolean {
    return this.stopped;
  }

  /**
   * Goes on with a study to its end, or until it is stopped by hand.
   * @throws what went wrong in a campaign or in the study
   */
  async carryOut<Result>(work: Work<Result>): Promise<Result> {
    for (let step = work.next(false); ; step = work.next(this.stopped)) {
      if (step.done === true) return step.value;
      if (!this.stopped) await this.answer(step.value);
    }
  }

  /** Draws a picture; others can be asked for meanwhile. */
  readonly draw: Draw = async (spec, words) => {
    const svg = await this.perform({ kind: 'picture', spec, words });
    if (typeof svg !== 'string') throw new Error('this is no picture');
    return svg;
  };

  /** Ends all that is at work, in the middle of it. What is complete is kept. */
  stop(): void {
    if (this.stopped) return;
    this.stopped = true;
    this.letGo(null);
    void this.end();
  }

  /** Lets them go. */
  async end(): Promise<void> {
    await this.pool.destroy();
  }

  private async answer(errands: Iterable<Errand>): Promise<void> {
    const running = new Set<Promise<void>>();
    for (const task of tasksOf(errands, this.count)) {
      const run: Promise<void> = this.run(task).finally(() => running.delete(run));
      running.add(run);
      // Where the study itself fails meanwhile, nobody waits for what is still running.
      run.catch(() => undefined);
      if (running.size >= AHEAD * this.count) await Promise.race([...running, this.halted]);
      if (this.stopped) return;
    }
    // That all threads have ended takes longer than what is to be said meanwhile.
    await Promise.race([Promise.all(running), this.halted]);
  }

  private async run(stretches: readonly Stretch[]): Promise<void> {
    const packed = stretches.map(({ order }) => ({ ...order, play: pack(order.play) }));
    try {
      const answers = await this.perform({ kind: 'stretches', stretches: packed });
      if (!isAnswers(answers)) throw new Error('these are no answers');
      // What comes when the study is concluded comes too late.
      if (this.stopped) return;
      answers.forEach((answer, place) => {
        stretches[place].put(answer);
      });
    } catch (error) {
      // A thread that was stopped has nothing to say.
      if (!this.stopped) throw error;
    }
  }

  private async perform(task: ThreadTask): Promise<unknown> {
    try {
      return await Promise.race([this.pool.run(task), this.failed]);
    } catch (error) {
      if (systemCode(error) !== 'ERR_WORKER_OUT_OF_MEMORY') throw error;
      throw new Failure(
        'a thread has used up all memory that it may have; fewer threads (--threads 1) need less',
        EXIT.failed,
      );
    }
  }
}

function isAnswers(value: unknown): value is readonly Answer[] {
  return Array.isArray(value);
}

const packedPlays = new WeakMap<Play, PackedPlay>();
let lastKey = 0;

function pack(play: Play): PackedPlay {
  const known = packedPlays.get(play);
  if (known !== undefined) return known;
  const plain = serialize(play);
  const bytes = new Uint8Array(new SharedArrayBuffer(plain.length));
  bytes.set(plain);
  lastKey += 1;
  const packed = { key: lastKey, bytes, images: imagesOf(play) };
  packedPlays.set(play, packed);
  return packed;
}
