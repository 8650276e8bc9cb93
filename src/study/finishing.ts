import type { CampaignModel } from '../campaign/model.js';
import { SECOND } from '../kernel/clock.js';
import { countsUpTo } from '../statistics/numbers.js';
import { landmarksOf } from '../statistics/order-statistics.js';
import { chanceOf } from './estimate.js';
import type { FinishPoint, StrategySummary } from './results.js';

const MOST_POINTS = 200;
const MOST_SESSIONS = 60;

/** When campaigns were finished: seconds from the start, NaN for those that never were. */
export class Finishing {
  /** Those that came. */
  private readonly came: Float64Array;
  /** The same in order; of very many an even part, with the last of all. */
  private readonly sorted: Float64Array;
  /** Of all campaigns. */
  private readonly count: number;

  /** @param moments one of each replication, all of them */
  constructor(moments: Float64Array) {
    this.count = moments.length;
    this.came = moments.filter((moment) => !Number.isNaN(moment));
    this.sorted = landmarksOf(this.came);
    const last = this.sorted.length - 1;
    for (const moment of this.came) if (moment > this.sorted[last]) this.sorted[last] = moment;
  }

  /** The chance that it is finished at all. */
  get chance(): StrategySummary['finishes'] {
    return chanceOf(this.came.length, this.count);
  }

  /** The chance that it is finished by then, at moments that lie at evenly chosen ranks. */
  get curve(): readonly FinishPoint[] {
    const { length } = this.sorted;
    const points = Math.min(MOST_POINTS, length);
    const times = Array.from({ length: points }, (_, i) => this.sorted[Math.floor(((i + 1) * length) / points) - 1]);
    // Ties finish together: the chance at a time counts all of them.
    const distinct = times.filter((time, i) => i === 0 || time > times[i - 1]);
    return this.by(distinct).map((chance, i) => ({ time: distinct[i], ...chance }));
  }

  /** The chance that it is finished by the end of each session that is booked, until all are that ever will be. */
  bySession({ bookings, start }: CampaignModel): StrategySummary['finishedBySession'] {
    const last = this.sorted.at(-1);
    if (bookings.isAlways || last === undefined) return [];
    const ends: number[] = [];
    while (ends.length < MOST_SESSIONS && (ends.at(-1) ?? -Infinity) < last)
      ends.push((bookings.sessionEnd(start, ends.length + 1) - start) / SECOND);
    return this.by(ends).map((chance, i) => ({ session: i + 1, time: ends[i], ...chance }));
  }

  private by(times: readonly number[]): readonly StrategySummary['finishes'][] {
    return countsUpTo(this.came, times).map((count) => chanceOf(count, this.count));
  }
}
