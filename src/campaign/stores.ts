import { after, AT_ONCE, type Course, type Process } from '../kernel/simulation.js';
import { microseconds } from '../kernel/clock.js';
import { specimenSupply, type Supply } from '../scenario/samples.js';
import type { Scenario } from '../scenario/schema/scenario.js';
import { ExperimentOver } from './over.js';
import type { ShelfState } from './state.js';
import type { Station } from './station.js';

/** What is limited, and how, by the name under which it is taken. */
export function suppliesOf(settings: Scenario): readonly (readonly [string, Supply])[] {
  const { tips, chips } = settings.stock;
  return [
    ...Object.entries(tips).map(([kind, supply]) => [tipsOf(kind), supply] as const),
    ...(chips === undefined ? [] : [['chip', chips] as const]),
    [SPECIMEN, specimenSupply(settings)],
  ];
}

const SPECIMEN = 'specimen';

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
    for (const [what, supply] of suppliesOf(station.floor.model.settings))
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

  /** Whether there is, or will be, a specimen beside those that are kept for samples to come. */
  hasSpareSpecimen(kept: number): boolean {
    const { supply, left } = this.shelf(SPECIMEN);
    return supply.restock !== undefined || left > kept;
  }

  /** Takes a specimen; where it is for the bench, waiting for its delivery needs no booking. */
  takeSpecimen(isForBench: boolean): Course {
    return this.takeFrom(this.shelf(SPECIMEN), SPECIMEN, isForBench);
  }

  /** Specimens taken before the start: whatever has to be delivered for them is there by then. */
  takeSpecimensAhead(count: number): void {
    const shelf = this.shelf(SPECIMEN);
    for (let i = 0; i < count; i += 1) {
      if (shelf.left === 0) shelf.left = shelf.supply.atHand;
      this.lessOne(shelf);
    }
  }

  /** As `takeOne`, of tips of a kind, by its place among the kinds. */
  takeTip(kind: number): Course {
    return this.takeOne(this.tips[kind]);
  }

  private shelf(what: string): Shelf {
    const shelf = this.shelves.get(what);
    if (shelf === undefined) throw new Error(`There is no shelf for a ${what}.`);
    return shelf;
  }

  private takeFrom(shelf: Shelf, what: string, isForBench = false): Course {
    return after(shelf.left === 0 ? this.restock(shelf, what, isForBench) : AT_ONCE, () => {
      this.lessOne(shelf);
      return AT_ONCE;
    });
  }

  private *restock(shelf: Shelf, what: string, isForBench: boolean): Process {
    if (shelf.supply.restock === undefined) throw new ExperimentOver(`no ${what} is left`);
    if (shelf.delivery > this.station.now) yield* this.station.waitForStock(shelf.delivery, isForBench);
    shelf.left = shelf.supply.atHand;
    this.station.note('delivery', () => `${shelf.left} × ${what}`);
  }

  private lessOne(shelf: Shelf): void {
    shelf.left -= 1;
    if (shelf.left === 0) shelf.delivery = this.station.now + deliveryDelay(shelf.supply);
  }
}
