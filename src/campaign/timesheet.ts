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

/** What is noted to have begun: how far its row had come then stands behind the cells, as the place of that row and what it held. */
export const MARK = {
  exchange: REASONS.length * WIDTH,
  search: REASONS.length * WIDTH + (WIDTH + 1),
  preparation: REASONS.length * WIDTH + 2 * (WIDTH + 1),
} as const;
export type Mark = (typeof MARK)[keyof typeof MARK];
const LENGTH = REASONS.length * WIDTH + 3 * (WIDTH + 1);

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
  /** By reason, then by activity; what is noted comes behind. */
  readonly cells = new Float64Array(LENGTH);
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

  /** Microseconds of each activity, in the order of ACTIVITIES. */
  byActivity(): number[] {
    const { cells } = this;
    // Fractions first, so that numbers lie in it as such.
    const sums = ACTIVITIES.map(() => 0.5).fill(0);
    for (let cell = 0; cell < REASONS.length * WIDTH; cell += 1) sums[cell % WIDTH] += cells[cell];
    return sums;
  }

  /** Something begins. */
  begin(mark: Mark): void {
    const { cells, row } = this;
    cells[mark] = row + 1;
    for (let activity = 0; activity < WIDTH; activity += 1) cells[mark + 1 + activity] = cells[row + activity];
  }

  /** What was spent since something began turns out to have been spent for another reason; nothing where it never did. */
  moveSince(mark: Mark, reason: Reason): void {
    const { cells } = this;
    const row = cells[mark] - 1;
    if (row < 0) return;
    const to = ROW[reason];
    for (let activity = 0; activity < WIDTH; activity += 1) {
      const before = cells[mark + 1 + activity];
      cells[to + activity] += cells[row + activity] - before;
      cells[row + activity] = before;
    }
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
