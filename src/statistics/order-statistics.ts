import { quickselect } from 'simple-statistics';
import type { Numbers } from './numbers.js';

/**
 * The numbers of a sample by their rank. Each is found when it is asked for, and narrows where the next ones lie: a few of
 * a million cost a tenth of what it costs to sort them all.
 */
export class OrderStatistics {
  readonly length: number;
  private readonly values: number[];
  /** Places that hold what they would hold if all were sorted, ascending, and one before and behind all. */
  private readonly settled: number[];

  /**
   * @param room as long as the sample at least, and written over: samples that are looked at one after the other may share it,
   * as new memory for each of them would cost more than all else here
   */
  constructor(values: Numbers, room = roomFor(values.length)) {
    this.length = values.length;
    for (let i = 0; i < values.length; i += 1) room[i] = values[i];
    this.values = room;
    this.settled = [-1, values.length];
  }

  /**
   * The value of a rank, the least one being that of rank 1.
   * @throws RangeError where there is no such rank
   */
  at(rank: number): number {
    const place = rank - 1;
    if (!Number.isInteger(rank) || place < 0 || place >= this.length)
      throw new RangeError(`a sample of ${this.length} has no value of rank ${rank}`);
    const next = this.settled.findIndex((settled) => settled >= place);
    if (this.settled[next] !== place) {
      const [from, to] = [this.settled[next - 1] + 1, this.settled[next] - 1];
      if (from < to) quickselect(this.values, place, from, to);
      this.settled.splice(next, 0, place);
    }
    return this.values[place];
  }
}

/** Room for samples of so many numbers. */
export function roomFor(count: number): number[] {
  return new Array<number>(count);
}
