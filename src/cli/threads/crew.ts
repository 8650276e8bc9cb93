import type { Draw } from '../../report/pictures.js';
import { Stopped, type Work } from '../../study/work/work.js';
import type { Console } from '../console.js';
import { EXIT, StoppedByHand } from '../failure.js';
import { Threads } from './threads.js';

const CODES = { SIGINT: EXIT.interrupted, SIGTERM: EXIT.terminated } as const;
type Signal = keyof typeof CODES;
const SIGNALS = ['SIGINT', 'SIGTERM'] as const;

/**
 * The threads of one command, which end within a moment when somebody asks for it: by Ctrl-C, or as the system does. What is
 * complete by then is concluded; a second request ends the program at once.
 */
export class Crew {
  private signal: Signal | null = null;
  private begun: Threads | null = null;

  /** @param count of threads, which begin with the first work */
  constructor(
    private readonly count: number,
    private readonly console: Console,
  ) {}

  /**
   * Carries a study out, or what is complete of it when somebody stops it.
   * @throws StoppedByHand where that is nothing
   */
  async carryOut<Result>(work: Work<Result>): Promise<Result> {
    for (const signal of SIGNALS) process.on(signal, this.heed);
    try {
      return await this.threads.carryOut(work);
    } catch (error) {
      await this.end();
      if (!(error instanceof Stopped) || this.signal === null) throw error;
      throw new StoppedByHand('before there was anything to say; no report was written', CODES[this.signal]);
    }
  }

  /** Makes a report; where somebody stops that, or stopped the study, one without pictures. The threads are let go. */
  async report<Files>(make: (draw: Draw | null) => Promise<Files>): Promise<Files> {
    try {
      if (this.signal !== null) return await make(null);
      const { draw, halted } = this.threads;
      const whole = make(draw);
      const made = await Promise.race([whole, halted]);
      if (made !== null) return made;
      // What was being drawn comes to nothing.
      whole.catch(() => undefined);
      return await make(null);
    } finally {
      await this.end();
    }
  }

  /** Lets the threads go, and signals do what they do to every program. */
  async end(): Promise<void> {
    this.deafen();
    await this.begun?.end();
    this.begun = null;
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

  private get threads(): Threads {
    this.begun ??= new Threads(this.count);
    return this.begun;
  }

  private readonly heed = (signal: Signal): void => {
    this.signal = signal;
    this.deafen();
    this.begun?.stop();
    this.console.complain('stopping at what is complete');
  };

  private deafen(): void {
    for (const signal of SIGNALS) process.off(signal, this.heed);
  }
}
