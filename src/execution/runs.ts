import { Collector } from './collector.js';
import { plain, type Runnable } from './replicate.js';
import type { Experiment } from './experiment.js';
import type { Wants } from './batch.js';
import type { Task } from './job.js';

/** One strategy's campaigns with common random numbers, as many as were asked for so far; replication `first + i` stands at index `i`. */
export class Runs extends Collector {
  private ordered = 0;
  private readonly experiment: Experiment;

  /**
   * @param seed of the luck
   * @param wants what is kept of each replication beside its measures
   */
  constructor(
    readonly strategy: Runnable,
    private readonly seed: string,
    wants: Wants = {},
    private readonly first = 1,
  ) {
    super(wants);
    this.experiment = { kind: 'strategies', strategies: [plain(strategy)] };
  }

  /** What it takes to have so many replications; nothing where they are there, or ordered, already. */
  tasksTo(replications: number): readonly Task[] {
    if (replications <= this.ordered) return [];
    const from = this.first + this.ordered;
    const to = this.first + replications - 1;
    this.ordered = replications;
    this.reserve(replications);
    const take: Task['take'] = ([batch]) => {
      this.append(batch);
    };
    return [{ job: { experiment: this.experiment, seed: this.seed, from, to, wants: this.wants }, take }];
  }
}
