import type { WeeklyHours } from '../kernel/hours.js';
import { ACTIVITIES, type Activity, ACTIVITY_NUMBER } from './activities.js';

/** What was lacking, or was done about late reviews, in a stretch of time. Microseconds. */
interface Wait {
  readonly activity: Activity;
  readonly from: number;
  readonly to: number;
  /** What waited needs no booking, so that closed hours count as the rest of the stretch. */
  readonly needsNoBooking: boolean;
}

/** One piece of a gap between two steps. Microseconds. */
export interface WaitPiece {
  readonly activity: Activity;
  readonly start: number;
  end: number;
}

/** Where several apply at once, the first of these counts; hours outside bookings come before all of them. */
const RANKING: readonly Activity[] = ['waiting for a booking', 'reviewing', 'waiting for stock'];

/**
 * Where one instrument's time went, in whole microseconds. Whatever lies between two steps is waiting, told apart when
 * the next step starts, so that the parts add up to the elapsed time exactly.
 */
export class Timesheet {
  private readonly parts = new Float64Array(ACTIVITIES.length);
  /** Everything up to here is accounted for. */
  accountedTo: number;
  /** Since `accountedTo`; parts that lie before count no more. */
  private waits: Wait[] = [];

  constructor(
    private readonly bookings: WeeklyHours,
    start: number,
  ) {
    this.accountedTo = start;
  }

  of(activity: Activity): number {
    return this.parts[ACTIVITY_NUMBER[activity]];
  }

  /** Says what a stretch of a wait was for; what nothing is said of is waiting for the operator. */
  waited(activity: Activity, from: number, to: number, needsNoBooking = false): void {
    if (to > from) this.waits.push({ activity, from, to, needsNoBooking });
  }

  /** Accounts for the gap up to `now`, at which a step starts; gives its pieces in order of time. */
  closeGap(now: number): readonly WaitPiece[] {
    const pieces: WaitPiece[] = [];
    while (this.accountedTo < now) {
      const start = this.accountedTo;
      const end = this.nextChange(start, now);
      const activity = this.lackedAt(start);
      this.step(ACTIVITY_NUMBER[activity], end);
      const last = pieces.at(-1);
      if (last?.activity === activity) last.end = end;
      else pieces.push({ activity, start, end });
    }
    this.waits = [];
    return pieces;
  }

  /** A step from `accountedTo` to `end`, counted as the activity with this number. */
  step(activity: number, end: number): void {
    this.parts[activity] += end - this.accountedTo;
    this.accountedTo = end;
  }

  private lackedAt(moment: number): Activity {
    const here = this.waits.filter(({ from, to }) => from <= moment && moment < to);
    const isClosed = !this.bookings.isOpen(moment);
    const counting = isClosed ? here.filter(({ needsNoBooking }) => needsNoBooking) : here;
    if (isClosed && counting.length === 0) return 'waiting for a booking';
    return (
      RANKING.find((activity) => counting.some((wait) => wait.activity === activity)) ?? 'waiting for the operator'
    );
  }

  /** The next moment after `start`, at most `now`, at which something else may be lacking. */
  private nextChange(start: number, now: number): number {
    const { bookings } = this;
    let next = Math.min(now, bookings.isOpen(start) ? bookings.closing(start) : bookings.opening(start));
    for (const { from, to } of this.waits) {
      if (from > start) next = Math.min(next, from);
      if (to > start) next = Math.min(next, to);
    }
    return next;
  }
}
