import type { StudyOptions } from '../about.js';
import type { Meter } from './trials.js';

/** Counts the campaigns of a study, and tells how far each of its phases is. */
export class Counter implements Meter {
  count = 0;
  private begun = 0;
  private phase = '';
  private of = 0;

  constructor(private readonly onProgress: StudyOptions['onProgress']) {}

  /** Campaigns of the phase that was begun last. */
  get inPhase(): number {
    return this.count - this.begun;
  }

  /** @param of how many there will be at most, as far as is known */
  begin(phase: string, of: number): void {
    this.phase = phase;
    this.begun = this.count;
    this.of = of;
  }

  ran(): void {
    this.count += 1;
    this.onProgress?.({ phase: this.phase, done: this.inPhase, of: Math.max(this.of, this.inPhase) });
  }
}
