import type { StudyOptions } from '../../analysis/about.js';
import { Meter } from '../../execution/progress.js';
import type { Task } from '../../execution/job.js';

/** Counts the campaigns that a study looks at, and tells how far each of its phases is. */
export class Counter {
  count = 0;
  private begun = 0;
  private meter = new Meter('', undefined);

  constructor(private readonly onProgress: StudyOptions['onProgress']) {}

  /** Campaigns of the phase that was begun last. */
  get inPhase(): number {
    return this.count - this.begun;
  }

  begin(phase: string): void {
    this.begun = this.count;
    this.meter = new Meter(phase, this.onProgress);
  }

  /** The same tasks, with the progress of the phase told as they are answered. */
  over(tasks: Iterable<Task>): Iterable<Task> {
    return this.meter.over(tasks);
  }

  looked(campaigns: number): void {
    this.count += campaigns;
  }
}
