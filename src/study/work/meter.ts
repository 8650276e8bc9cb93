import type { Progress } from '../about.js';
import type { Errand } from './order.js';

/** Tells how many replications of all those ordered in a phase are there. */
export class Meter {
  private done = 0;
  private of = 0;

  constructor(
    private readonly phase: string,
    private readonly tell: ((progress: Progress) => void) | undefined,
  ) {}

  /** The same errands, counted as they are ordered and as they are answered. */
  *over(errands: Iterable<Errand>): Generator<Errand> {
    for (const { order, take } of errands) {
      this.of += order.to - order.from + 1;
      yield {
        order,
        take: (answer) => {
          take(answer);
          this.done += answer[0].count;
          this.tell?.({ phase: this.phase, done: this.done, of: this.of });
        },
      };
    }
  }
}
