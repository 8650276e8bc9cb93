import { total } from '../../statistics/numbers.js';
import type { Runnable } from '../../execution/replicate.js';
import { Runs } from '../../execution/runs.js';
import type { Counter } from './counter.js';

/** What is kept of each replication. */
export type Kept =
  'time' | 'operatorTime' | 'yield' | 'undetectedBadShare' | 'tips' | 'cost' | 'cutYield' | 'goodImages';

/** What all trials of a study have in common. */
export interface TrialGround {
  /** Of the luck. */
  readonly seed: string;
  readonly counter: Counter;
}

/**
 * Campaigns of one setting with common random numbers, from replication `first` on; the one of replication `first + i` stands at
 * index `i`. More may have been run than were looked at yet: only those count.
 */
export class Trials extends Runs {
  private seen = 0;
  private readonly planned: number;

  constructor(
    strategy: Runnable,
    first: number,
    private readonly ground: TrialGround,
  ) {
    super(strategy, ground.seed, { cut: true }, first);
    this.planned = plannedIn(strategy);
  }

  /** How many were looked at. */
  get looked(): number {
    return this.seen;
  }

  /** Looks at as many replications, which have been run. @throws Error where they have not */
  lookAt(replications: number): this {
    if (replications > this.count) throw new Error(`${replications} campaigns were not run yet`);
    if (replications > this.seen) {
      this.ground.counter.looked(replications - this.seen);
      this.seen = replications;
    }
    return this;
  }

  /** Forgets what was looked at beyond the first replications. */
  keepFirst(replications: number): this {
    this.seen = Math.min(this.seen, replications);
    return this;
  }

  /** One number of every replication that was looked at. */
  of(kept: Kept): Float64Array {
    return this.all(kept).subarray(0, this.seen);
  }

  mean(kept: Kept): number {
    return total(this.of(kept)) / this.seen;
  }

  /** Share of the campaigns that were ever finished. */
  get finishedShare(): number {
    return this.finishedAt.subarray(0, this.seen).filter(Number.isFinite).length / this.seen;
  }

  private all(kept: Kept): Float64Array {
    switch (kept) {
      case 'time':
        return this.values.instrumentTime;
      case 'cutYield':
        return this.strategy.model.allocationEnd === null ? this.values.yield : this.column('cutYield');
      case 'goodImages':
        return this.values.yield.map((share) => share * this.planned);
      default:
        return this.values[kept];
    }
  }
}

/** What all images planned are worth. */
export function plannedIn({ model }: Runnable): number {
  return model.images.reduce((sum, { pass }) => sum + pass.weight, 0);
}
