import type { Runnable } from './replicate.js';
import { Runs } from './runs.js';
import { whatCounts } from './what-counts.js';
import type { Wants } from './batch.js';

/** Campaigns with common random numbers for a study that changes values: what is alike is run once, however often it is asked for. */
export class Pool {
  private readonly known = new Map<string, Runs>();

  /**
   * @param seed of the luck
   * @param wants what is kept of each replication beside its measures
   */
  constructor(
    private readonly seed: string,
    private readonly wants: Wants = {},
  ) {}

  runsOf(strategy: Runnable): Runs {
    const key = `${strategy.model.workflow} ${whatCounts(strategy)}`;
    const found = this.known.get(key);
    if (found !== undefined) return found;
    const runs = new Runs(strategy, this.seed, this.wants);
    this.known.set(key, runs);
    return runs;
  }

  /** How many campaigns were run so far. */
  get campaigns(): number {
    return Array.from(this.known.values(), ({ count }) => count).reduce((sum, count) => sum + count, 0);
  }
}
