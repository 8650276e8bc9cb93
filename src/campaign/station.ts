import { PURPOSES } from '../chance/luck.js';
import type { Process, Simulation } from '../kernel/simulation.js';
import type { Tip } from '../probe/tip.js';
import { Desk } from './desk.js';
import type { Floor } from './floor.js';
import { ACTIVITIES, ACTIVITY_NUMBER } from './activities.js';
import type { Take } from './ledger.js';
import type { ImageModel, StepModel } from './model.js';
import { ExperimentOver } from './over.js';
import { RANK } from './ranks.js';
import type { StationState } from './state.js';
import { type Need, type Phase, runsUnattended, STEP_NUMBERS, type StepName } from './steps.js';
import { inClockOrder, Timesheet } from './timesheet.js';

/** Bookings in a row in which an instrument opened without starting a scan, after which nobody believes that one ever will. */
const FRUITLESS_OPENINGS = 100;

/**
 * The time of one instrument: steps that start only inside a booking and with who is needed, what happens when it has
 * stood idle over a closing, and where its time went.
 */
export class Station {
  readonly sim: Simulation;
  readonly timesheet: Timesheet;
  readonly desk: Desk;
  /** The tip is at the surface. Lost at each retract, and when the instrument stands idle over a closing. */
  engaged = false;
  /** The region is in the frame: it was located, relocated or registered since the last change of tip or region. */
  found = false;
  /** The image that is due, for whose pass an approach is made. */
  due: ImageModel | null = null;
  /** The tip on, for the record. */
  tipOn: Tip | null = null;
  operatorTime = 0;
  overrun = 0;
  /**
   * Nothing ever holds up a step: always booked, always attended, and an operator for every instrument. Not where a campaign
   * is taken up, since takes may then wait for their reviews.
   */
  readonly isUnhindered: boolean;
  /** When the instrument was first needed: after the first preparation on the bench. */
  occupiedFrom: number;

  /** By number of the step. */
  private readonly occurrences: number[];
  /** End of the booking in which it last worked; 0 before it has. */
  private bookedUntil = 0;
  private lastWorked: number;
  private warm = false;
  private openings = 0;
  /** Late reviewing up to the end of the last step. */
  private reviewedBefore = 0;

  constructor(
    readonly floor: Floor,
    readonly number: number,
    from: StationState | null = null,
  ) {
    const { bookings, presence, settings, start, images } = floor.model;
    const isServed = bookings.isAlways && presence.isAlways && settings.operators.count >= settings.instruments;
    this.isUnhindered = isServed && from === null;
    this.sim = floor.sim;
    this.timesheet = new Timesheet(bookings, start);
    this.desk = new Desk(floor, number);
    this.lastWorked = from?.lastWorked ?? start;
    if (this.isUnhindered) this.bookedUntil = Infinity;
    this.occupiedFrom = start;
    this.occurrences = STEP_NUMBERS.map((number) => from?.occurrences.at(number) ?? 0);
    if (from === null) return;
    this.engaged = from.engaged;
    this.found = from.found;
    this.warm = from.warm;
    this.bookedUntil = from.bookedUntil ?? Infinity;
    this.openings = from.openings;
    this.due = from.due === null ? null : images[from.due];
  }

  /** How it stands, between steps. */
  get state(): StationState {
    const { engaged, found, warm, bookedUntil, lastWorked, openings, due } = this;
    return {
      ...{ engaged, found, warm, lastWorked, openings },
      bookedUntil: bookedUntil === Infinity ? null : bookedUntil,
      due: due?.number ?? null,
      occurrences: [...this.occurrences],
    };
  }

  get now(): number {
    return this.sim.now;
  }

  /** Whether the last try of a step succeeded. */
  succeeded({ success, number }: StepModel): boolean {
    const { luck } = this.floor;
    return success >= 1 || luck.uniform(PURPOSES.stepSuccess, this.number, number, this.latest(number), 0) < success;
  }

  /** Work on the bench: needs an operator, but neither booking nor instrument. */
  *onBench(step: StepModel): Process {
    if (!this.isUnhindered && this.floor.operators.request(1, this.number)) yield;
    this.closeGap(false);
    const duration = this.nextDuration(step);
    if (this.sim.sleepUntil(this.now + duration, RANK.stepEnd)) yield;
    this.releaseHands();
    this.operatorTime += duration;
    this.record(step.name, ACTIVITY_NUMBER['preparing and setting up'], this.now - duration, null);
  }

  /** The first warm-up is done: from now on an idle closing costs another. */
  warmedUp(): void {
    this.warm = true;
  }

  /** Who must be there for a step. */
  needOf(name: StepName, manual: boolean, phase: Phase): Need {
    if (manual) return 'hands';
    if (this.floor.model.presence.isAlways) return 'nobody';
    return runsUnattended(name, phase, this.floor.model.settings.bookings.unattended) ? 'nobody' : 'presence';
  }

  /**
   * Claims what a step needs if it may start this instant, as it nearly always may: an operator's hands, or nothing.
   * `not yet`: call `ready`.
   */
  claim(need: Need, room: number): 'hands' | 'nothing' | 'not yet' {
    if (this.isUnhindered) return need === 'hands' ? 'hands' : 'nothing';
    if (!this.isBookedFor(room) || this.desk.holdsUp(need)) return 'not yet';
    if (need === 'nobody') return 'nothing';
    const { floor } = this;
    if (need === 'presence') return floor.isAttended ? 'nothing' : 'not yet';
    // Another instrument's arrival in this instant may come first: then the queue decides.
    if (!floor.hasFreeOperator || !floor.sim.isNext(this.now, RANK.start)) return 'not yet';
    if (floor.operators.request(1, this.number)) throw new Error('A free operator was not granted at once.');
    return 'hands';
  }

  /** The tip is away from the surface; the region is to be found again, except after a dead site. */
  away(isFromDeadSite: boolean): void {
    this.engaged = false;
    if (!isFromDeadSite) this.found = false;
  }

  /** Lets go of an operator's hands that are held. */
  releaseHands(): void {
    // Where nothing is ever held up, nobody keeps count.
    if (!this.isUnhindered) this.floor.operators.release();
  }

  /**
   * Waits until a step may start: reviews of absent hours first, inside a booking with `room` microseconds left, warmed up
   * again after an idle closing, and with who is needed. Returns whether an operator's hands are now held.
   * @throws ExperimentOver where no booking is long enough, or none ever leaves room
   */
  *ready(need: Need, room: number): Generator<void, boolean, unknown> {
    for (;;) {
      const reached = yield* this.readyOrReopened(need, room);
      if (reached !== 'reopened') return reached === 'hands';
    }
  }

  /** As `ready`, but comes back after an idle closing, warmed up, for what is to be done first to be decided anew. */
  *readyOrReopened(need: Need, room: number): Generator<void, 'hands' | 'nothing' | 'reopened', unknown> {
    const { model, operators, sim } = this.floor;
    const units = need === 'hands' ? 1 : 0;
    if (this.isUnhindered) return units === 1 ? 'hands' : 'nothing';
    for (;;) {
      if (this.desk.holdsUp(need)) yield* this.desk.wait(need);
      const opens = model.bookings.withRoom(this.now, room);
      if (opens > this.now) yield* this.sleepToBooking(opens);
      if (this.hasStoodIdleOverClosing()) {
        yield* this.reopen();
        return 'reopened';
      }
      if (!this.desk.holdsUp(need)) {
        if (need === 'nobody') {
          this.bookedUntil = model.bookings.closing(sim.now);
          return 'nothing';
        }
        if (operators.request(units, this.number, { hours: model.bookings, room })) yield;
        if (!this.hasStoodIdleOverClosing()) {
          this.bookedUntil = model.bookings.closing(sim.now);
          return units === 1 ? 'hands' : 'nothing';
        }
        if (units === 1) this.releaseHands();
      }
    }
  }

  /**
   * Reviews of absent hours, of which some are on the desk, that come before a step, and may change what is to be done.
   * Returns whether there was anything to wait for, after which it is decided anew; where there was not, the step may go on.
   */
  *reviewedFirst(name: StepName, phase: Phase): Generator<void, boolean, unknown> {
    const need = this.needOf(name, this.floor.model.steps[name].manual, phase);
    if (this.desk.holdsUp(need)) {
      yield* this.desk.wait(need);
      return true;
    }
    // It waits for its booking, and the operator may come meanwhile.
    if (this.isBookedFor(0)) return false;
    const reached = yield* this.readyOrReopened(need, 0);
    if (reached === 'hands') this.releaseHands();
    return true;
  }

  /** A step starts that is ready: whatever lay before it was waiting. Gives the moment. */
  begin(): number {
    const { now } = this.sim;
    if (this.timesheet.accountedTo !== now) this.closeGap(true);
    return now;
  }

  /** A step that began at `start` has ended; `activity` is the number of what it counts as. */
  end(name: StepName, activity: number, start: number, hands: boolean, take: Take | null): void {
    const { now } = this.sim;
    if (hands) {
      this.releaseHands();
      this.operatorTime += now - start;
    }
    if (now > this.bookedUntil) {
      const { bookings } = this.floor.model;
      this.overrun += now - start - bookings.openBetween(start, now);
      if (bookings.isOpen(now)) this.bookedUntil = bookings.closing(now);
    }
    this.lastWorked = now;
    if (name === 'scan') this.openings = 0;
    this.record(name, activity, start, take);
  }

  /** Waits for a delivery at `time` microseconds. */
  *waitForStock(time: number): Process {
    const from = this.now;
    if (this.sim.sleepUntil(time, RANK.start)) yield;
    this.timesheet.waitedForStock(from, this.now);
  }

  /** Tells the recorder, where there is one, of something that happens now; the detail is put into words only then. */
  note(what: string, detail: () => string): void {
    const { recorder } = this.floor;
    if (recorder !== null) recorder.event(this.now, this.number, what, detail());
  }

  /** Which occurrence of the step with this number was the last, from 0; it numbers its draws. */
  latest(step: number): number {
    return this.occurrences[step] - 1;
  }

  /** Microseconds that a step takes which is about to be done. */
  nextDuration({ number, isFixed, timeAt }: StepModel): number {
    const occurrence = this.occurrences[number];
    this.occurrences[number] = occurrence + 1;
    return timeAt(isFixed ? 0.5 : this.floor.luck.uniform(PURPOSES.stepTime, this.number, number, occurrence, 0));
  }

  /** Inside the booking in which it last worked, with `room` microseconds left. */
  private isBookedFor(room: number): boolean {
    return this.now < this.bookedUntil && this.bookedUntil - this.now >= room;
  }

  private *sleepToBooking(opens: number): Process {
    if (opens === Infinity) throw new ExperimentOver('no booking is long enough');
    const from = this.now;
    if (this.sim.sleepUntil(opens, RANK.start)) yield;
    this.timesheet.waitedForRoom(from, this.now);
  }

  private hasStoodIdleOverClosing(): boolean {
    const { bookings } = this.floor.model;
    return (
      this.warm && !bookings.isAlways && bookings.openBetween(this.lastWorked, this.now) < this.now - this.lastWorked
    );
  }

  /** The instrument opens again: it warms up, and whatever was in place is no longer. */
  private *reopen(): Process {
    this.engaged = false;
    this.found = false;
    this.lastWorked = this.now;
    this.openings += 1;
    if (this.openings > FRUITLESS_OPENINGS)
      throw new ExperimentOver('no booking leaves room for a scan after warming up');
    const { warmUp } = this.floor.model.steps;
    const hands = yield* this.ready(this.needOf('warmUp', warmUp.manual, 'resuming'), 0);
    const start = this.begin();
    if (this.sim.sleepUntil(start + this.nextDuration(warmUp), RANK.stepEnd)) yield;
    this.end('warmUp', warmUp.activity, start, hands, null);
  }

  private closeGap(needsBooking: boolean): void {
    const from = this.timesheet.accountedTo;
    if (from === this.now) return;
    const waits = this.timesheet.closeGap(this.now, needsBooking, this.desk.timeSpent - this.reviewedBefore);
    const { recorder, model } = this.floor;
    if (recorder === null) return;
    for (const { start, end, activity } of inClockOrder(waits, from, model.bookings)) {
      recorder.step({ instrument: this.number, start, end, activity, step: 'wait', tip: this.tipOn, take: null });
    }
  }

  private record(name: StepName, activity: number, start: number, take: Take | null): void {
    const { now } = this.sim;
    this.timesheet.step(activity, now);
    if (!this.isUnhindered) this.reviewedBefore = this.desk.timeSpent;
    const { recorder } = this.floor;
    if (recorder === null) return;
    const what = { activity: ACTIVITIES[activity], step: name, tip: this.tipOn, take };
    recorder.step({ instrument: this.number, start, end: now, ...what });
  }
}
