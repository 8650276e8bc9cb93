import type { Supply } from '../scenario/samples.js';
import { deliveryDelay, tipsOf } from './supplies.js';
import { ExperimentOver } from './over.js';
import type { Wait } from './wait.js';
import type { ShelfState } from './state.js';
import type { Scheduler } from './scheduler.js';
import type { Waits } from './waits.js';

interface Shelf {
  readonly what: string;
  left: number;
  readonly supply: Supply;
  /** When the delivery under way comes, microseconds. */
  delivery: number;
}

/** Tips, chips and specimens at hand for one instrument; what the scenario does not limit is never short. */
export class Stores {
  private readonly shelves: readonly Shelf[];

  constructor(
    private readonly scheduler: Scheduler,
    private readonly waits: Waits,
    from: readonly ShelfState[] = [],
  ) {
    const { supplies } = scheduler.context.model;
    const delivery = scheduler.now;
    this.shelves = supplies.map(([what, supply]) => ({ what, left: supply.atHand, supply, delivery }));
    for (const { what, left, delivery } of from) {
      const shelf = this.find(what);
      if (shelf !== null) Object.assign(shelf, { left, delivery });
    }
  }

  get state(): readonly ShelfState[] {
    return this.shelves.map(({ what, left, delivery }) => ({ what, left, delivery }));
  }

  /**
   * Takes a chip. Gives the wait for a delivery where none is left; null where there is nothing to wait for.
   * @throws ExperimentOver where none is left and no more come
   */
  takeChip(): Wait | null {
    return this.takeFrom(this.find('chip'));
  }

  /** As `takeChip`, of tips of a kind, by its place among the kinds. */
  takeTip(kind: number): Wait | null {
    // Mostly no tips are limited.
    if (this.shelves.length === 1) return null;
    return this.takeFrom(this.find(tipsOf(this.scheduler.context.model.kinds[kind].name)));
  }

  /** Whether there is, or will be, a specimen beside those that are kept for samples to come. */
  hasSpareSpecimen(kept: number): boolean {
    const { supply, left } = this.specimens;
    return supply.restock !== undefined || left > kept;
  }

  /** As `takeChip`, of specimens; where it is for the bench, waiting for its delivery needs no booking. */
  takeSpecimen(isForBench: boolean): Wait | null {
    return this.takeFrom(this.specimens, isForBench);
  }

  /** Specimens taken before the start: whatever has to be delivered for them is there by then. */
  takeSpecimensAhead(count: number): void {
    const shelf = this.specimens;
    for (let i = 0; i < count; i += 1) {
      if (shelf.left === 0) shelf.left = shelf.supply.atHand;
      this.lessOne(shelf);
    }
  }

  private find(what: string): Shelf | null {
    return this.shelves.find((shelf) => shelf.what === what) ?? null;
  }

  /** There always is a shelf for specimens, the last one. */
  private get specimens(): Shelf {
    return this.shelves[this.shelves.length - 1];
  }

  private takeFrom(shelf: Shelf | null, isForBench = false): Wait | null {
    if (shelf?.left === 0) return this.restock(shelf, isForBench);
    if (shelf !== null) this.lessOne(shelf);
    return null;
  }

  private *restock(shelf: Shelf, isForBench: boolean): Wait {
    const { what } = shelf;
    if (shelf.supply.restock === undefined) throw new ExperimentOver(`no ${what} is left`);
    if (shelf.delivery > this.scheduler.now) yield* this.waits.waitForStock(shelf.delivery, isForBench);
    shelf.left = shelf.supply.atHand;
    this.scheduler.note('delivery', () => `${shelf.left} × ${what}`);
    this.lessOne(shelf);
    return undefined;
  }

  private lessOne(shelf: Shelf): void {
    shelf.left -= 1;
    if (shelf.left === 0) shelf.delivery = this.scheduler.now + deliveryDelay(shelf.supply);
  }
}
