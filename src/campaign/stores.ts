import { AT_ONCE, type Course, type Process } from '../kernel/simulation.js';
import { microseconds } from '../kernel/clock.js';
import type { Scenario } from '../scenario/schema/scenario.js';
import { ExperimentOver } from './over.js';
import type { ShelfState } from './state.js';
import type { Station } from './station.js';

export interface Supply {
  readonly atHand: number;
  /** Seconds from running out to the delivery. */
  readonly restock?: number | undefined;
}

/** What is limited, and how, by the name under which it is taken. */
export function suppliesOf({ tips, chips, specimens }: Scenario['stock']): readonly (readonly [string, Supply])[] {
  return [
    ...Object.entries(tips).map(([kind, supply]) => [tipsOf(kind), supply] as const),
    ...(chips === undefined ? [] : [['chip', chips] as const]),
    ['specimen', specimens],
  ];
}

function tipsOf(kind: string): string {
  return `${kind} tip`;
}

/** Microseconds from running out to the delivery; 0 where none comes. */
export function deliveryDelay({ restock }: Supply): number {
  return microseconds(restock ?? 0);
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
  /** Under what tips are taken, by kind. */
  private readonly tips: readonly string[];

  constructor(
    private readonly station: Station,
    from: readonly ShelfState[] = [],
  ) {
    this.tips = station.floor.model.kinds.map(({ name }) => tipsOf(name));
    for (const [what, supply] of suppliesOf(station.floor.model.settings.stock))
      this.shelves.set(what, { left: supply.atHand, supply, delivery: station.now });
    for (const { what, left, delivery } of from) {
      const shelf = this.shelves.get(what);
      if (shelf !== undefined) Object.assign(shelf, { left, delivery });
    }
  }

  get state(): readonly ShelfState[] {
    return [...this.shelves].map(([what, { left, delivery }]) => ({ what, left, delivery }));
  }

  /**
   * Takes one of something, waiting for a delivery where none is left.
   * @throws ExperimentOver where none is left and no more come
   */
  takeOne(what: string): Course {
    const shelf = this.shelves.get(what);
    return shelf === undefined ? AT_ONCE : this.takeFrom(shelf, what);
  }

  /** As `takeOne`, of tips of a kind, by its place among the kinds. */
  takeTip(kind: number): Course {
    return this.takeOne(this.tips[kind]);
  }

  private *takeFrom(shelf: Shelf, what: string): Process {
    if (shelf.left === 0) {
      if (shelf.supply.restock === undefined) throw new ExperimentOver(`no ${what} is left`);
      if (shelf.delivery > this.station.now) yield* this.station.waitForStock(shelf.delivery);
      shelf.left = shelf.supply.atHand;
      this.station.note('delivery', () => `${shelf.left} × ${what}`);
    }
    shelf.left -= 1;
    if (shelf.left === 0) shelf.delivery = this.station.now + deliveryDelay(shelf.supply);
  }
}
