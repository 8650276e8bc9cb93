import { firstInBoth } from '../kernel/hours.js';
import type { Window } from '../kernel/resource.js';
import type { Process } from '../kernel/simulation.js';
import { ExperimentOver } from './over.js';
import { RANK } from './ranks.js';
import type { Scheduler } from './scheduler.js';
import { needOf } from './step-model.js';
import type { Need, Phase, StepName } from './steps.js';
import type { Ready, Wait } from './wait.js';

/** Bookings in a row in which an instrument opened without starting a scan, after which nobody believes that one ever will. */
const FRUITLESS_OPENINGS = 100;

/** What one instrument waits for where a step may not start at once: its booking, an operator, a delivery, reviews of absent hours. */
export class Waits {
  /** Who must be there for the instrument to open again after a closing. */
  private readonly warmUpNeed: Need;

  constructor(private readonly at: Scheduler) {
    this.warmUpNeed = at.context.model.steps.warmUp.needResuming;
  }

  /** Waits for an operator, whatever is booked; an instrument that opens meanwhile warms up first. */
  *operatorForBench(): Wait {
    for (;;) {
      const opens = this.opensAt;
      if (opens <= this.at.now) yield* this.open(true);
      else {
        const from = this.at.now;
        const isThere = yield* this.requested(1, undefined, opens, RANK.start);
        this.at.timesheet.waited('waiting for the operator', from, this.at.now, true);
        if (isThere && this.opensAt > this.at.now) return 'hands';
        if (isThere) this.at.releaseHands();
      }
    }
  }

  /**
   * Waits until a step may start: reviews of absent hours first, inside a booking with `room` microseconds left, warmed up
   * again after an idle closing, and with who is needed. Returns whether an operator's hands are now held.
   * @throws ExperimentOver where no booking is long enough, or none ever leaves room
   */
  *ready(need: Need, room: number): Wait {
    for (;;) {
      const reached = yield* this.readyOrChanged(need, room);
      if (reached !== 'changed') return reached;
    }
  }

  /** As `ready`, but comes back after late reviews, or warmed up after an idle closing, for what is first to be decided anew. */
  *readyOrChanged(need: Need, room: number): Generator<void, Ready, unknown> {
    const { bookings } = this.at.context.model;
    const units = need === 'hands' ? 1 : 0;
    if (this.at.isUnhindered) return units === 1 ? 'hands' : 'nothing';
    for (;;) {
      const opens = this.opensAt;
      if (opens <= this.at.now) {
        yield* this.open(true);
        return 'changed';
      }
      if (this.at.reviews.holdsUp(need)) {
        yield* this.at.reviews.wait(need, opens);
        return 'changed';
      }
      const fits = bookings.withRoom(this.at.now, room);
      if (fits > this.at.now) yield* this.sleepToBooking(fits, opens);
      else if (need === 'nobody') {
        this.at.bookedUntil = bookings.closing(this.at.now);
        return 'nothing';
      } else if (yield* this.requested(units, { hours: bookings, room }, opens, RANK.start)) {
        if (this.opensAt > this.at.now) {
          this.at.bookedUntil = bookings.closing(this.at.now);
          return units === 1 ? 'hands' : 'nothing';
        }
        if (units === 1) this.at.releaseHands();
      }
    }
  }

  /**
   * Waits for a present operator's hands, for the review of what has just been scanned; what is in the queue comes first. False
   * where the operators' hours or the booking end before.
   */
  *handsWhileHere(): Wait {
    const { bookings, presence } = this.at.context.model;
    const until = Math.min(bookings.closing(this.at.now), presence.closing(this.at.now));
    yield* this.at.reviews.wait('hands', until);
    const isThere = this.at.now < until && (yield* this.requested(1, undefined, until, RANK.closing));
    return isThere ? 'hands' : 'changed';
  }

  /** Waits for an operator (with `units` 0 only to be present); false where a moment comes first. */
  private *requested(
    units: 0 | 1,
    window: Window | undefined,
    until: number,
    rank: number,
  ): Generator<void, boolean, unknown> {
    const { operators, sim } = this.at.context;
    if (operators.request(units, this.at.number, window)) {
      const bell = until === Infinity ? null : sim.interruptAt(sim.active, until, rank, 'too late');
      const reason = yield;
      bell?.cancel();
      if (reason !== undefined) {
        operators.withdraw();
        return false;
      }
    }
    this.at.holdsOperator = units === 1;
    return true;
  }

  /**
   * Reviews of absent hours, of which some are on the desk, that come before a step, and may change what is to be done.
   * `changed` where there was anything to wait for, after which it is decided anew; where there was not, the step may go on.
   */
  *reviewedFirst(name: StepName, phase: Phase): Wait {
    const need = needOf(this.at.context.model.steps[name], phase);
    // Where it waits for its booking, the operator may come meanwhile.
    if (!this.at.reviews.holdsUp(need) && this.at.isBookedFor(0)) return 'nothing';
    const reached = yield* this.readyOrChanged(need, 0);
    if (reached === 'hands') this.at.releaseHands();
    return 'changed';
  }

  /** Waits for a delivery at `time` microseconds; an instrument that opens meanwhile warms up. */
  *waitForStock(time: number, isForBench: boolean): Process {
    while (this.at.now < time) {
      const opens = this.opensAt;
      const from = this.at.now;
      if (opens <= from) {
        // A delivery may take as long as it likes: to open meanwhile is not in vain.
        yield* this.open(false);
      } else {
        if (this.at.sim.sleepUntil(Math.min(time, opens), RANK.start)) yield;
        this.at.timesheet.waited('waiting for stock', from, this.at.now, isForBench);
      }
    }
  }

  /** Waits for a booking with room for a scan, at `fits`, or until the instrument opens again. */
  private *sleepToBooking(fits: number, opens: number): Process {
    if (fits === Infinity) throw new ExperimentOver('no booking is long enough');
    const from = this.at.now;
    if (this.at.sim.sleepUntil(Math.min(fits, opens), RANK.start)) yield;
    this.at.timesheet.waited('waiting for a booking', from, this.at.now);
  }

  /**
   * When the instrument opens again, if nothing is done until then: whatever is waited for, it warms up as soon as it may after
   * a closing over which it has stood idle. Infinity where there is no such moment.
   */
  private get opensAt(): number {
    const { bookings, presence } = this.at.context.model;
    if (!this.at.warm || bookings.isAlways) return Infinity;
    const { lastWorked } = this.at;
    const closes = bookings.isOpen(lastWorked) ? bookings.closing(lastWorked) : lastWorked;
    const from = Math.max(this.at.now, bookings.opening(closes));
    return this.warmUpNeed === 'nobody' ? bookings.opening(from) : firstInBoth(presence, bookings, from);
  }

  /** The instrument opens again: after reviews of absent hours it warms up, and whatever was in place is no longer. */
  private *open(isForScan: boolean): Process {
    const { model } = this.at.context;
    const { warmUp } = model.steps;
    const need = this.warmUpNeed;
    if (this.at.reviews.holdsUp(need)) {
      yield* this.at.reviews.wait(need);
      return;
    }
    const hands = need === 'hands';
    if (need !== 'nobody')
      yield* this.requested(hands ? 1 : 0, { hours: model.bookings, room: 0 }, Infinity, RANK.start);
    this.at.engaged = false;
    this.at.found = false;
    if (isForScan) this.at.openings += 1;
    if (this.at.openings > FRUITLESS_OPENINGS)
      throw new ExperimentOver('no booking leaves room for a scan after warming up');
    const start = this.at.now;
    this.at.begin();
    this.at.bookedUntil = model.bookings.closing(start);
    if (this.at.sim.sleepUntil(start + this.at.nextDuration(warmUp), RANK.stepEnd)) yield;
    this.at.end(warmUp, warmUp.activity, hands, null);
  }
}
