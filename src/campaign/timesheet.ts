import type { WeeklyHours } from '../kernel/hours.js';
import { ACTIVITIES, type Activity, ACTIVITY_NUMBER } from './ledger.js';

/**
 * Where one instrument's time went, in whole microseconds. Whatever lies between two steps is waiting, told apart when
 * the next step starts, so that the parts add up to the elapsed time exactly.
 */
export class Timesheet {
  private readonly parts = new Float64Array(ACTIVITIES.length);
  /** Everything up to here is accounted for. */
  accountedTo: number;
  /** Open time lost because a scan did not fit into what was left of the booking, since `accountedTo`. */
  private unfit = 0;
  /** Open time in which stock was waited for, since `accountedTo`. */
  private forStock = 0;

  constructor(
    private readonly bookings: WeeklyHours,
    start: number,
  ) {
    this.accountedTo = start;
  }

  of(activity: Activity): number {
    return this.parts[ACTIVITY_NUMBER[activity]];
  }

  /** The instrument waited from `from` to `to` for a booking with room for a scan. */
  waitedForRoom(from: number, to: number): void {
    this.unfit += this.bookings.openBetween(from, to);
  }

  /** The instrument waited from `from` to `to` for a delivery. */
  waitedForStock(from: number, to: number): void {
    this.forStock += this.bookings.openBetween(from, to);
  }

  /**
   * Accounts for the gap up to `now`, at which a step starts. Closed time is waiting for a booking (unless the step needs
   * none), then come stock and the operator, in this order where several lack; `reviewing` microseconds of the gap went
   * to reviews of absent hours. Returns the parts, in the order in which they are counted.
   */
  closeGap(now: number, needsBooking: boolean, reviewing: number): readonly (readonly [Activity, number])[] {
    let left = now - this.accountedTo;
    const take = (wanted: number): number => {
      const taken = Math.min(left, wanted);
      left -= taken;
      return taken;
    };
    const closed = needsBooking ? left - this.bookings.openBetween(this.accountedTo, now) : 0;
    const parts: (readonly [Activity, number])[] = [
      ['waiting for a booking', take(closed + this.unfit)],
      ['reviewing', take(reviewing)],
      ['waiting for stock', take(this.forStock)],
    ];
    parts.push(['waiting for the operator', left]);
    this.accountedTo = now;
    this.unfit = 0;
    this.forStock = 0;
    for (const [activity, time] of parts) this.add(activity, time);
    return parts.filter(([, time]) => time > 0);
  }

  /** A step from `accountedTo` to `end`. */
  step(activity: Activity, end: number): void {
    this.add(activity, end - this.accountedTo);
    this.accountedTo = end;
  }

  private add(activity: Activity, time: number): void {
    this.parts[ACTIVITY_NUMBER[activity]] += time;
  }
}
