import type { Process } from '../kernel/simulation.js';
import { microseconds } from '../kernel/clock.js';
import { ExperimentOver } from './over.js';
import type { Station } from './station.js';

interface Supply {
  readonly atHand: number;
  /** Seconds from running out to the delivery. */
  readonly restock?: number | undefined;
}

interface Shelf {
  left: number;
  readonly supply: Supply;
  /** When the delivery under way comes, microseconds. */
  delivery: number;
}

/** Tips, chips and specimens at hand for one instrument; what the scenario does not limit is never short. */
export class Stores {
  private readonly shelves = new Map<string, Shelf>();

  constructor(private readonly station: Station) {
    const { tips, chips, specimens } = station.floor.model.settings.stock;
    for (const [kind, supply] of Object.entries(tips)) this.put(`${kind} tip`, supply);
    if (chips !== undefined) this.put('chip', chips);
    this.put('specimen', specimens);
  }

  /**
   * Takes one of something, waiting for a delivery where none is left.
   * @throws ExperimentOver where none is left and no more come
   */
  *takeOne(what: string): Process {
    const shelf = this.shelves.get(what);
    if (shelf === undefined) return;
    if (shelf.left === 0) {
      if (shelf.supply.restock === undefined) throw new ExperimentOver(`no ${what} is left`);
      if (shelf.delivery > this.station.now) yield* this.station.waitForStock(shelf.delivery);
      shelf.left = shelf.supply.atHand;
      this.station.note('delivery', `${shelf.left} × ${what}`);
    }
    shelf.left -= 1;
    if (shelf.left === 0) shelf.delivery = this.station.now + microseconds(shelf.supply.restock ?? 0);
  }

  private put(what: string, supply: Supply): void {
    this.shelves.set(what, { left: supply.atHand, supply, delivery: this.station.now });
  }
}
