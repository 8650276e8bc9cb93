import { replicationsOf, type Task } from './job.js';

export interface Progress {
  readonly phase: string;
  readonly done: number;
  /** How many there will be; for replications the next look, since nobody knows which look is the last. */
  readonly of: number;
}

/** Is told how far a study has come. */
export type OnProgress = (progress: Progress) => void;

/** Tells how many replications of all those asked for in a phase are there. */
export class Meter {
  private done = 0;
  private asked = 0;

  /** @param expected so many will be asked for at least, as far as is known before */
  constructor(
    private readonly phase: string,
    private readonly tell: OnProgress | undefined,
    private readonly expected = 0,
  ) {}

  /** The same tasks, counted as they are asked for, a list of them at once, and as they are done. */
  *over(tasks: Iterable<Task>): Generator<Task> {
    const listed = isList(tasks);
    if (listed) for (const { job } of tasks) this.asked += replicationsOf(job);
    for (const { job, take } of tasks) {
      if (!listed) this.asked += replicationsOf(job);
      yield {
        job,
        take: (result) => {
          take(result);
          this.done += result[0].count;
          this.tell?.({ phase: this.phase, done: this.done, of: Math.max(this.asked, this.expected) });
        },
      };
    }
  }
}

function isList(tasks: Iterable<Task>): tasks is readonly Task[] {
  return Array.isArray(tasks);
}
