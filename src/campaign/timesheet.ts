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

/** Why time is spent, beside what it is spent on. */
export const REASONS = ['as planned', 'flagged tip', 'failed try', 'mishandling', 'outside bookings'] as const;
export type Reason = (typeof REASONS)[number];

const WIDTH = ACTIVITIES.length;

/** Where the row of each reason begins. */
export const ROW: Readonly<Record<Reason, number>> = {
  'as planned': 0,
  'flagged tip': WIDTH,
  'failed try': 2 * WIDTH,
  mishandling: 3 * WIDTH,
  'outside bookings': 4 * WIDTH,
};
const OUTSIDE = ROW['outside bookings'];

/** How far one row of a sheet had come. */
export interface Mark {
  readonly row: number;
  readonly cells: readonly number[];
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
  /** By reason, then by activity. */
  readonly cells: number[] = new Array<number>(REASONS.length * WIDTH).fill(0);
  /** Where the row begins of what time is spent for from now on; never that of hours outside bookings. */
  row = ROW['as planned'];
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
    return REASONS.reduce((sum, reason) => sum + this.cells[ROW[reason] + ACTIVITY_NUMBER[activity]], 0);
  }

  /** To be given back to `moveSince`. */
  get mark(): Mark {
    return { row: this.row, cells: this.cells.slice(this.row, this.row + WIDTH) };
  }

  /** What was spent since a mark turns out to have been spent for another reason. */
  moveSince({ row, cells }: Mark, reason: Reason): void {
    const to = ROW[reason];
    cells.forEach((before, activity) => {
      const moved = this.cells[row + activity] - before;
      this.cells[row + activity] = before;
      this.cells[to + activity] += moved;
    });
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
      this.step(ACTIVITY_NUMBER[activity], end, this.bookings.isOpen(start) ? 0 : end - start);
      const last = pieces.at(-1);
      if (last?.activity === activity) last.end = end;
      else pieces.push({ activity, start, end });
    }
    this.waits = [];
    return pieces;
  }

  /** A step from `accountedTo` to `end`, so much of it outside bookings, counted as the activity with this number. */
  step(activity: number, end: number, outside: number): void {
    this.cells[this.row + activity] += end - this.accountedTo - outside;
    if (outside > 0) this.cells[OUTSIDE + activity] += outside;
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
