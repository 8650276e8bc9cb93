import type { LuckTable } from '../../chance/luck.js';
import type { Outcome } from '../../campaign/outcome.js';
import type { TimeMeasure } from '../differences.js';
import { replicate, type Runnable } from '../replicate.js';

/** What is kept of each replication. */
export type Kept = 'time' | 'yield' | 'silentBadShare' | 'tips' | 'cost' | 'cutYield' | 'goodImages';

/** Counts campaigns as they are run. */
export interface Meter {
  /** Called after each campaign. */
  readonly ran: () => void;
}

/** What all trials of a study have in common. */
export interface TrialGround {
  readonly table: LuckTable;
  readonly time: TimeMeasure;
  readonly meter: Meter;
}

/** Campaigns of one setting on the common luck, from replication `first` on; the one of replication `first + i` stands at index `i`. */
export class Trials {
  readonly values: Readonly<Record<Kept, number[]>> = {
    time: [],
    yield: [],
    silentBadShare: [],
    tips: [],
    cost: [],
    cutYield: [],
    goodImages: [],
  };
  private finished = 0;
  /** What all images planned are worth. */
  private readonly planned: number;

  constructor(
    private readonly strategy: Runnable,
    private readonly first: number,
    private readonly ground: TrialGround,
  ) {
    this.planned = strategy.model.images.reduce((sum, { pass }) => sum + pass.weight, 0);
  }

  get count(): number {
    return this.values.time.length;
  }

  /** Share of the campaigns that were ever finished. */
  get finishedShare(): number {
    return this.finished / this.count;
  }

  mean(kept: Kept): number {
    return this.values[kept].reduce((sum, value) => sum + value, 0) / this.count;
  }

  /** Runs on until there are so many replications. */
  upTo(replications: number): this {
    while (this.count < replications) this.add(replicate(this.strategy, this.ground.table, this.first + this.count));
    return this;
  }

  private add(outcome: Outcome): void {
    const { values } = this;
    values.time.push(outcome[this.ground.time]);
    values.yield.push(outcome.yield);
    values.silentBadShare.push(outcome.silentBadShare);
    values.tips.push(outcome.tips);
    values.cost.push(outcome.cost);
    values.cutYield.push((outcome.cut ?? outcome).yield);
    values.goodImages.push(outcome.yield * this.planned);
    if (outcome.isFinished) this.finished += 1;
    this.ground.meter.ran();
  }
}
