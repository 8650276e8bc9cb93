import type { ImageModel } from './model.js';
import type { Scheduler } from './scheduler.js';
import type { Stores } from './stores.js';

/** Specimens that have to be prepared before they are put on, at one instrument. */
export class Specimens {
  /** Samples whose first specimen is prepared. */
  readonly prepared: Set<number>;
  /** The last try of preparing one succeeded. */
  isReady = false;

  constructor(
    private readonly scheduler: Scheduler,
    private readonly stores: Stores,
    private readonly images: readonly ImageModel[],
    prepared: readonly number[],
  ) {
    this.prepared = new Set(prepared);
  }

  isToPrepare(sample: number): boolean {
    return !this.prepared.has(sample);
  }

  get toPrepare(): readonly number[] {
    const samples = new Set(this.images.map(({ sample }) => sample));
    return [...samples].filter((sample) => this.isToPrepare(sample));
  }

  /** Whether one is left, or will come, to replace one that is lost. */
  get hasSpare(): boolean {
    return this.stores.hasSpareSpecimen(this.toPrepare.length);
  }

  /** Preparing one of a sample begins. */
  begin(sample: number): void {
    this.scheduler.context.ledger.specimensUsed.push(this.scheduler.now);
    this.scheduler.draws.prepareFor(sample);
  }
}
