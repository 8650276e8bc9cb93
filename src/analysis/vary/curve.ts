import { type Column, type Crossing, crossingsOf, refinements, type Sign, signsOf } from '../../statistics/crossing.js';
import { less } from '../../statistics/numbers.js';
import { LEVEL } from '../differences.js';
import type { Measure } from '../../execution/measures.js';
import type { Setting } from '../../scenario/ranges.js';
import type { Runs } from '../../execution/runs.js';
import type { Meter } from '../../execution/progress.js';
import { completed, type Work } from '../../execution/work.js';
import { type Axis, numberAt, placeAt } from './axis.js';

/** Campaigns of two strategies at one setting. */
export interface Pair {
  readonly first: Runs;
  readonly second: Runs;
}

/** One setting of a range with the paired differences found there. */
export interface CurveColumn extends Column {
  readonly number: number;
  readonly setting: Setting;
  readonly pair: Pair;
}

/** What is asked of a curve, and how much may be spent on it. */
export interface Demand {
  /** Replications at the first look; they double from look to look. */
  readonly from: number;
  readonly to: number;
  /** Half-width of a crossing, as a share of the range, that is fine enough. */
  readonly halfWidth: number;
  /** Campaigns beyond which no look is begun. */
  readonly campaigns: number;
}

/** Shares of the range beyond which no setting is put between two others. */
const FINEST = 1 / 48;
const MOST_ROUNDS = 8;

/** The difference of two strategies along a range, with common random numbers at every setting. */
export class Curve {
  private places: readonly (Omit<CurveColumn, 'differences'> & { readonly replications: number })[] = [];

  /**
   * @param pairAt the two strategies at a setting; null where that is no scenario
   * @param spent campaigns run so far
   */
  constructor(
    readonly axis: Axis,
    private readonly measure: Measure,
    private readonly pairAt: (setting: Setting) => Pair | null,
    private readonly spent: () => number,
  ) {}

  /** Adds a setting, whose share of the way may be moved to the nearest whole number. Gives whether it is new. */
  add(share: number): boolean {
    const place = placeAt(this.axis, share);
    if (this.places.some(({ number }) => number === place.number)) return false;
    const pair = this.pairAt(place.setting);
    if (pair === null) return false;
    this.places = [...this.places, { ...place, pair, replications: 0 }].sort((a, b) => a.number - b.number);
    return true;
  }

  /** How many settings it has. */
  get size(): number {
    return this.places.length;
  }

  /** Second less first at every setting that was run. */
  get columns(): readonly CurveColumn[] {
    const run = this.places.filter(({ replications }) => replications > 0);
    return run.map(({ at, number, setting, pair, replications }) => {
      const [first, second] = [pair.first.values[this.measure], pair.second.values[this.measure]];
      const differences = Array.from(less(second.subarray(0, replications), first));
      return { at, number, setting, pair, differences };
    });
  }

  /** Signs of all columns together, and the crossings between those that are clearly different. */
  get found(): { readonly columns: readonly CurveColumn[]; signs: readonly Sign[]; crossings: readonly Crossing[] } {
    const { columns } = this;
    return { columns, signs: signsOf(columns, LEVEL), crossings: crossingsOf(columns, LEVEL) };
  }

  /**
   * Runs replications, and puts settings between others, until every crossing is known well enough and every other setting
   * is told apart. Gives whether it came to that before the most replications or campaigns.
   */
  *resolve({ from, to, halfWidth, campaigns }: Demand, meter: Meter): Work<boolean> {
    yield* this.runTo(from, () => true, meter);
    for (let replications = from; ; replications *= 2) {
      yield* this.refine(replications, meter);
      const open = this.open(halfWidth);
      if (open.length === 0) return true;
      const next = 2 * replications;
      if (next > to || this.spent() + 2 * open.length * replications > campaigns) return false;
      yield* this.runTo(next, (number) => open.includes(number), meter);
    }
  }

  /** Numbers of the columns at which more replications would tell more. */
  private open(halfWidth: number): readonly number[] {
    const { columns, signs, crossings } = this.found;
    const within = (number: number) => crossings.find(({ before, behind }) => number >= before && number <= behind);
    return columns.flatMap(({ differences }, number) => {
      const crossing = within(number);
      if (crossing === undefined) return signs[number] === 0 && !isEqual(differences) ? [number] : [];
      return this.isKnown(crossing, halfWidth) ? [] : [number];
    });
  }

  /** Nobody can use more than to know which whole number it is. */
  private isKnown({ low, high }: Crossing, halfWidth: number): boolean {
    const width = numberAt(this.axis, high) - numberAt(this.axis, low);
    return (high - low) / 2 <= halfWidth || (this.axis.isWhole && width <= 1);
  }

  /** Puts settings between those about a crossing, until these lie close. */
  private *refine(replications: number, meter: Meter): Work<void> {
    for (let round = 0; round < MOST_ROUNDS; round += 1) {
      const { columns, crossings } = this.found;
      const wanted = crossings.flatMap((crossing) => refinements(columns, crossing, FINEST));
      const added = wanted.filter((share) => this.add(share));
      if (added.length === 0) return;
      yield* this.runTo(replications, (number) => this.places[number].replications === 0, meter);
    }
  }

  private *runTo(replications: number, isWanted: (number: number) => boolean, meter: Meter): Work<void> {
    const isOpen = (place: { readonly replications: number }, number: number) =>
      isWanted(number) && place.replications < replications;
    const pairs = this.places.filter(isOpen).flatMap(({ pair: { first, second } }) => [first, second]);
    yield* completed(meter.over(pairs.flatMap((runs) => runs.tasksTo(replications))));
    this.places = this.places.map((place, number) => (isOpen(place, number) ? { ...place, replications } : place));
  }
}

/** Whether two strategies come to exactly the same in every replication. */
export function isEqual(differences: readonly number[]): boolean {
  return differences.every((difference) => difference === 0);
}
