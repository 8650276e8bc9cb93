import { ACTIVITY_NUMBER } from '../campaign/activities.js';
import type { LuckTable } from '../chance/luck.js';
import { SECOND } from '../kernel/clock.js';
import { replicate, type Runnable } from './replicate.js';
import { MEASURES, perMeasure } from './results.js';

const LOST = ACTIVITY_NUMBER['scanning lost'];

/** One strategy's campaigns on the common luck, as many as were asked for so far; replication `i` stands at index `i - 1`. */
export class Runs {
  readonly values = perMeasure((): number[] => []);
  /** Seconds from the start at which each replication was finished; null where it was not. */
  readonly finishedAt: (number | null)[] = [];
  /** Seconds of scans that were not kept, all instruments together. */
  readonly scanningLost: number[] = [];

  constructor(
    readonly strategy: Runnable,
    private readonly table: LuckTable,
  ) {}

  get count(): number {
    return this.finishedAt.length;
  }

  /** Runs on until there are so many replications. */
  upTo(replications: number): this {
    for (let replication = this.count + 1; replication <= replications; replication += 1) {
      const outcome = replicate(this.strategy, this.table, replication);
      for (const measure of MEASURES) this.values[measure].push(outcome[measure]);
      this.finishedAt.push(outcome.isFinished ? outcome.confirmedAt : null);
      this.scanningLost.push(outcome.split.reduce((sum, row) => sum + row[LOST] / SECOND, 0));
    }
    return this;
  }
}
