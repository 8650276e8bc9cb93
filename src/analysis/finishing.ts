import { landmarksOf } from '../statistics/order-statistics.js';
import { SECOND } from '../kernel/clock.js';
import { type Booked, bookedTimeOf, calendarAfter, chancesWithin } from './complete.js';
import type { FinishPoint, StrategySummary } from './results.js';

const MOST_POINTS = 200;
const MOST_SESSIONS = 60;

/** When campaigns are complete. */
export class Finishing {
  /** Those of the times that came, in order; of very many an even part, with the last of all. */
  private readonly sorted: Float64Array;

  /** @param times of each replication the instrument time with which it is complete, in seconds; Infinity where it never is */
  constructor(
    private readonly times: Float64Array,
    private readonly booked: Booked,
  ) {
    const came = times.filter(Number.isFinite);
    this.sorted = landmarksOf(came);
    const last = this.sorted.length - 1;
    for (const time of came) if (time > this.sorted[last]) this.sorted[last] = time;
  }

  /** The chance that it is complete at all. */
  get chance(): StrategySummary['finishes'] {
    return this.within(Number.MAX_VALUE);
  }

  /** The chance that it is complete within an allocation, in seconds. */
  within(allocation: number): StrategySummary['finishes'] {
    return chancesWithin(this.times, [allocation])[0];
  }

  /** The chance that it is complete by then, at moments that lie at evenly chosen ranks. */
  get curve(): readonly FinishPoint[] {
    const { length } = this.sorted;
    const points = Math.min(MOST_POINTS, length);
    const times = Array.from({ length: points }, (_, i) => this.sorted[Math.floor(((i + 1) * length) / points) - 1]);
    // Ties come together: the chance at a time counts all of them.
    const distinct = times.filter((time, i) => i === 0 || time > times[i - 1]);
    return chancesWithin(this.times, distinct).map((chance, i) => ({
      time: calendarAfter(this.booked, distinct[i]),
      ...chance,
    }));
  }

  /** The chance that it is complete within so many booked sessions, until all are that ever will be. */
  get bySession(): StrategySummary['finishedBySession'] {
    const { bookings, start } = this.booked;
    const last = this.sorted.at(-1);
    if (bookings.isAlways || last === undefined) return [];
    const allocations: number[] = [];
    while (allocations.length < MOST_SESSIONS && (allocations.at(-1) ?? -Infinity) < last)
      allocations.push(bookedTimeOf(this.booked, allocations.length + 1));
    return chancesWithin(this.times, allocations).map((chance, i) => ({
      session: i + 1,
      time: (bookings.sessionEnd(start, i + 1) - start) / SECOND,
      ...chance,
    }));
  }
}
