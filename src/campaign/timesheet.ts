import type { WeeklyHours } from '../kernel/hours.js';
import { ACTIVITIES, type Activity, ACTIVITY_NUMBER } from './activities.js';

/** What a gap between two steps was spent on, in microseconds. */
export interface Waits {
  /** Outside bookings. */
  readonly closed: number;
  /** In a booking that had no room for a scan. */
  readonly unfit: number;
  readonly reviewing: number;
  readonly forStock: number;
  readonly forOperator: number;
}

/**
 * The waits of a gap that began at `from` as they lie on the clock: closed time where the bookings are closed, and in open
 * time whoever or whatever was waited for before the late reviews, which come last.
 */
export function inClockOrder(
  { closed, unfit, reviewing, forStock, forOperator }: Waits,
  from: number,
  bookings: WeeklyHours,
): readonly { readonly start: number; readonly end: number; readonly activity: Activity }[] {
  const open: { activity: Activity; left: number }[] = [
    { activity: 'waiting for a booking', left: unfit },
    { activity: 'waiting for the operator', left: forOperator },
    { activity: 'waiting for stock', left: forStock },
    { activity: 'reviewing', left: reviewing },
  ];
  const pieces: { start: number; end: number; activity: Activity }[] = [];
  let start = from;
  let closedLeft = closed;
  const put = (activity: Activity, length: number): void => {
    const last = pieces.at(-1);
    if (last?.activity === activity) last.end += length;
    else if (length > 0) pieces.push({ start, end: start + length, activity });
    start += length;
  };
  for (const wait of open) {
    while (wait.left > 0) {
      const opens = Math.min(bookings.opening(start), start + closedLeft);
      closedLeft -= opens - start;
      put('waiting for a booking', opens - start);
      const length = closedLeft > 0 ? Math.min(wait.left, bookings.closing(start) - start) : wait.left;
      put(wait.activity, length);
      wait.left -= length;
    }
  }
  put('waiting for a booking', closedLeft);
  return pieces;
}

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
   * to reviews of absent hours.
   */
  closeGap(now: number, needsBooking: boolean, reviewing: number): Waits {
    let left = now - this.accountedTo;
    const take = (wanted: number): number => {
      const taken = Math.min(left, wanted);
      left -= taken;
      return taken;
    };
    const closed = take(needsBooking ? left - this.bookings.openBetween(this.accountedTo, now) : 0);
    const waits = {
      closed,
      unfit: take(this.unfit),
      reviewing: take(reviewing),
      forStock: take(this.forStock),
      forOperator: left,
    };
    this.accountedTo = now;
    this.unfit = 0;
    this.forStock = 0;
    this.add('waiting for a booking', waits.closed + waits.unfit);
    this.add('reviewing', waits.reviewing);
    this.add('waiting for stock', waits.forStock);
    this.add('waiting for the operator', waits.forOperator);
    return waits;
  }

  /** A step from `accountedTo` to `end`, counted as the activity with this number. */
  step(activity: number, end: number): void {
    this.parts[activity] += end - this.accountedTo;
    this.accountedTo = end;
  }

  private add(activity: Activity, time: number): void {
    this.parts[ACTIVITY_NUMBER[activity]] += time;
  }
}
