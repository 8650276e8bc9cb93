import { PURPOSES } from '../chance/luck.js';
import { firstInBoth } from '../kernel/hours.js';
import type { Window } from '../kernel/resource.js';
import type { Process, Simulation } from '../kernel/simulation.js';
import type { Tip } from '../probe/tip.js';
import { Desk } from './desk.js';
import type { Floor } from './floor.js';
import { InstrumentDrift, NO_DRIFT } from './instrument-drift.js';
import { ACTIVITIES, ACTIVITY_NUMBER } from './activities.js';
import type { Take } from './ledger.js';
import { type ImageModel, needOf, type StepModel } from './model.js';
import { ExperimentOver } from './over.js';
import { RANK } from './ranks.js';
import type { StartedDrift } from './recorder.js';
import type { ImageDrift, StationState } from './state.js';
import { type Need, type Phase, STEP_NUMBER, STEP_NUMBERS, type StepName } from './steps.js';
import { type Mark, Timesheet } from './timesheet.js';

const PREPARE = STEP_NUMBER.prepare;
const SETTLE = STEP_NUMBER.settle;

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
  /** Microseconds of work at the bench before the start. */
  benchTime = 0;
  /** When the step began that ended last. */
  begunAt: number;

  /** By number of the step; of preparing, for the sample that is prepared for. */
  private readonly occurrences: number[];
  /** Null where nothing drifts. */
  private readonly drift: InstrumentDrift | null;
  private preparing = 0;
  /** How often specimens of each sample were prepared; out of date for the one that is prepared for. */
  private readonly preparations: Map<number, number>;
  /** End of the booking in which it last worked; 0 before it has. */
  private bookedUntil = 0;
  private lastWorked: number;
  private warm = false;
  private openings = 0;
  /** Who must be there for the instrument to open again after a closing. */
  private readonly warmUpNeed: Need;

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
    this.desk = new Desk(floor, number, this.timesheet);
    this.lastWorked = from?.lastWorked ?? start;
    if (this.isUnhindered) this.bookedUntil = Infinity;
    this.begunAt = start;
    this.warmUpNeed = floor.model.steps.warmUp.needResuming;
    this.occurrences = STEP_NUMBERS.map((number) => from?.occurrences.at(number) ?? 0);
    this.preparations = new Map(from?.preparations);
    this.occurrences[PREPARE] = this.preparations.get(0) ?? 0;
    const { drift } = floor.model;
    this.drift = drift === null ? null : new InstrumentDrift(drift, number, floor.luck, from?.drift ?? null);
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
      preparations: [...this.preparations.set(this.preparing, this.occurrences[PREPARE])],
      drift: this.drift?.state ?? null,
    };
  }

  get now(): number {
    return this.sim.now;
  }

  /** Whether the last try of a step succeeded. */
  succeeded({ success, number }: StepModel): boolean {
    const { luck } = this.floor;
    const draw = () =>
      luck.uniform(PURPOSES.stepSuccess, this.number, number, this.latest(number), this.drawnFor(number));
    return success >= 1 || draw() < success;
  }

  /** Work at the bench before the start, on the operator's time alone. */
  aheadOnBench(step: StepModel): void {
    this.benchTime += this.nextDuration(step);
  }

  /** Work at the bench while the instrument waits: needs an operator, but no booking. */
  *onBench(step: StepModel): Process {
    if (!this.isUnhindered) yield* this.operatorForBench();
    this.closeGap();
    const duration = this.nextDuration(step);
    if (this.sim.sleepUntil(this.now + duration, RANK.stepEnd)) yield;
    this.releaseHands();
    this.operatorTime += duration;
    const start = this.now - duration;
    const outside = duration - this.floor.model.bookings.openBetween(start, this.now);
    this.record(step.name, ACTIVITY_NUMBER['preparing and setting up'], start, outside, null, null);
  }

  /** Waits for an operator, whatever is booked; an instrument that opens meanwhile warms up first. */
  private *operatorForBench(): Process {
    for (;;) {
      const opens = this.opensAt;
      if (opens <= this.now) yield* this.open(true);
      else {
        const from = this.now;
        const isThere = yield* this.requested(1, undefined, opens, RANK.start);
        this.timesheet.waited('waiting for the operator', from, this.now, true);
        if (isThere && this.opensAt > this.now) return;
        if (isThere) this.releaseHands();
      }
    }
  }

  /** The first warm-up is done: from now on an idle closing costs another. */
  warmedUp(): void {
    this.warm = true;
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
      const reached = yield* this.readyOrChanged(need, room);
      if (reached !== 'changed') return reached === 'hands';
    }
  }

  /** As `ready`, but comes back after late reviews, or warmed up after an idle closing, for what is first to be decided anew. */
  *readyOrChanged(need: Need, room: number): Generator<void, 'hands' | 'nothing' | 'changed', unknown> {
    const { bookings } = this.floor.model;
    const units = need === 'hands' ? 1 : 0;
    if (this.isUnhindered) return units === 1 ? 'hands' : 'nothing';
    for (;;) {
      const opens = this.opensAt;
      if (opens <= this.now) {
        yield* this.open(true);
        return 'changed';
      }
      if (this.desk.holdsUp(need)) {
        yield* this.desk.wait(need, opens);
        return 'changed';
      }
      const fits = bookings.withRoom(this.now, room);
      if (fits > this.now) yield* this.sleepToBooking(fits, opens);
      else if (need === 'nobody') {
        this.bookedUntil = bookings.closing(this.now);
        return 'nothing';
      } else if (yield* this.requested(units, { hours: bookings, room }, opens, RANK.start)) {
        if (this.opensAt > this.now) {
          this.bookedUntil = bookings.closing(this.now);
          return units === 1 ? 'hands' : 'nothing';
        }
        if (units === 1) this.releaseHands();
      }
    }
  }

  /**
   * Waits for a present operator's hands, for the review of what has just been scanned; what is on the desk comes first. False
   * where the operators' hours or the booking end before.
   */
  *handsWhileHere(): Generator<void, boolean, unknown> {
    const { bookings, presence } = this.floor.model;
    const until = Math.min(bookings.closing(this.now), presence.closing(this.now));
    yield* this.desk.wait('hands', until);
    return this.now < until && (yield* this.requested(1, undefined, until, RANK.closing));
  }

  /** Waits for an operator (with `units` 0 only to be present); false where a moment comes first. */
  private *requested(
    units: 0 | 1,
    window: Window | undefined,
    until: number,
    rank: number,
  ): Generator<void, boolean, unknown> {
    const { operators, sim } = this.floor;
    if (!operators.request(units, this.number, window)) return true;
    const bell = until === Infinity ? null : sim.interruptAt(sim.active, until, rank, 'too late');
    const reason = yield;
    bell?.cancel();
    if (reason === undefined) return true;
    operators.withdraw();
    return false;
  }

  /**
   * Reviews of absent hours, of which some are on the desk, that come before a step, and may change what is to be done.
   * Returns whether there was anything to wait for, after which it is decided anew; where there was not, the step may go on.
   */
  *reviewedFirst(name: StepName, phase: Phase): Generator<void, boolean, unknown> {
    const need = needOf(this.floor.model.steps[name], phase);
    // Where it waits for its booking, the operator may come meanwhile.
    if (!this.desk.holdsUp(need) && this.isBookedFor(0)) return false;
    const reached = yield* this.readyOrChanged(need, 0);
    if (reached === 'hands') this.releaseHands();
    return true;
  }

  /** A step starts that is ready: whatever lay before it was waiting. Gives the moment. */
  begin(): number {
    const { now } = this.sim;
    if (this.timesheet.accountedTo !== now) this.closeGap();
    return now;
  }

  /** A step that began at `start` has ended; `activity` is the number of what it counts as. */
  end(step: StepModel, activity: number, start: number, hands: boolean, take: Take | null): void {
    const { now } = this.sim;
    if (hands) {
      this.releaseHands();
      this.operatorTime += now - start;
    }
    let outside = 0;
    if (now > this.bookedUntil) {
      const { bookings } = this.floor.model;
      outside = now - start - bookings.openBetween(start, now);
      this.overrun += outside;
      if (bookings.isOpen(now)) this.bookedUntil = bookings.closing(now);
    }
    this.lastWorked = now;
    this.begunAt = start;
    if (take !== null) this.openings = 0;
    const drift = this.drift?.stepEnded(step, now) ?? null;
    this.record(step.name, activity, start, outside, take, drift);
  }

  /** Waits for a delivery at `time` microseconds; an instrument that opens meanwhile warms up. */
  *waitForStock(time: number, isForBench: boolean): Process {
    while (this.now < time) {
      const opens = this.opensAt;
      const from = this.now;
      if (opens <= from) {
        // A delivery may take as long as it likes: to open meanwhile is not in vain.
        yield* this.open(false);
      } else {
        if (this.sim.sleepUntil(Math.min(time, opens), RANK.start)) yield;
        this.timesheet.waited('waiting for stock', from, this.now, isForBench);
      }
    }
  }

  /** Tells the recorder, where there is one, of something that happens now; the detail is put into words only then. */
  note(what: string, detail: () => string): void {
    const { recorder } = this.floor;
    if (recorder !== null) recorder.event(this.now, this.number, what, detail());
  }

  /** A try since a mark of the timesheet has failed. */
  failedSince(mark: Mark, whatNow: () => string): void {
    this.timesheet.moveSince(mark, 'failed try');
    this.note('failed', whatNow);
  }

  /** Which occurrence of the step with this number was the last, from 0; it numbers its draws. */
  latest(step: number): number {
    return this.occurrences[step] - 1;
  }

  /** Microseconds that a step takes which is about to be done. */
  nextDuration(step: StepModel): number {
    const { number, isFixed, timeAt } = step;
    const occurrence = this.occurrences[number];
    this.occurrences[number] = occurrence + 1;
    if (number === SETTLE) return this.settlingTime(step, occurrence);
    if (isFixed) return timeAt(0.5);
    return timeAt(this.floor.luck.uniform(PURPOSES.stepTime, this.number, number, occurrence, this.drawnFor(number)));
  }

  /** Settling lasts its time, or until drift has come down; before a critical pass perhaps longer. */
  private settlingTime({ number, isFixed, timeAt, until }: StepModel, occurrence: number): number {
    const { luck, model } = this.floor;
    const untilSettled = (rate: number | null) => (rate === null ? 0 : (this.drift?.waitUntil(rate, this.now) ?? 0));
    const usual =
      until === null
        ? timeAt(isFixed ? 0.5 : luck.uniform(PURPOSES.stepTime, this.number, number, occurrence, 0))
        : untilSettled(until);
    if (this.due?.pass.critical !== true) return usual;
    const { criticalSettling } = model;
    return Math.max(usual, criticalSettling.time, untilSettled(criticalSettling.until));
  }

  /** Drift of an image that is scanned between two moments (microseconds), of which its pass bears `tolerance` (nm). */
  driftOver(from: number, to: number, tolerance: number | undefined): ImageDrift {
    return this.drift?.ofImage(from, to, tolerance) ?? NO_DRIFT;
  }

  /** From now on specimens of this sample are prepared: draws of preparing are numbered within each sample. */
  prepareFor(sample: number): void {
    this.preparations.set(this.preparing, this.occurrences[PREPARE]);
    this.preparing = sample;
    this.occurrences[PREPARE] = this.preparations.get(sample) ?? 0;
  }

  /** The last index of the draws of a step: the sample of what is prepared. */
  private drawnFor(step: number): number {
    return step === PREPARE ? this.preparing : 0;
  }

  /** Inside the booking in which it last worked, with `room` microseconds left. */
  private isBookedFor(room: number): boolean {
    return this.now < this.bookedUntil && this.bookedUntil - this.now >= room;
  }

  /** Waits for a booking with room for a scan, at `fits`, or until the instrument opens again. */
  private *sleepToBooking(fits: number, opens: number): Process {
    if (fits === Infinity) throw new ExperimentOver('no booking is long enough');
    const from = this.now;
    if (this.sim.sleepUntil(Math.min(fits, opens), RANK.start)) yield;
    this.timesheet.waited('waiting for a booking', from, this.now);
  }

  /**
   * When the instrument opens again, if nothing is done until then: whatever is waited for, it warms up as soon as it may after
   * a closing over which it has stood idle. Infinity where there is no such moment.
   */
  private get opensAt(): number {
    const { bookings, presence } = this.floor.model;
    if (!this.warm || bookings.isAlways) return Infinity;
    const { lastWorked } = this;
    const closes = bookings.isOpen(lastWorked) ? bookings.closing(lastWorked) : lastWorked;
    const from = Math.max(this.now, bookings.opening(closes));
    return this.warmUpNeed === 'nobody' ? bookings.opening(from) : firstInBoth(presence, bookings, from);
  }

  /** The instrument opens again: after reviews of absent hours it warms up, and whatever was in place is no longer. */
  private *open(isForScan: boolean): Process {
    const { model } = this.floor;
    const { warmUp } = model.steps;
    const need = this.warmUpNeed;
    if (this.desk.holdsUp(need)) {
      yield* this.desk.wait(need);
      return;
    }
    const hands = need === 'hands';
    if (need !== 'nobody')
      yield* this.requested(hands ? 1 : 0, { hours: model.bookings, room: 0 }, Infinity, RANK.start);
    this.engaged = false;
    this.found = false;
    if (isForScan) this.openings += 1;
    if (this.openings > FRUITLESS_OPENINGS)
      throw new ExperimentOver('no booking leaves room for a scan after warming up');
    const start = this.begin();
    this.bookedUntil = model.bookings.closing(start);
    if (this.sim.sleepUntil(start + this.nextDuration(warmUp), RANK.stepEnd)) yield;
    this.end(warmUp, warmUp.activity, start, hands, null);
  }

  private closeGap(): void {
    const { desk, timesheet, now } = this;
    if (desk.reviewingSince !== null) timesheet.waited('reviewing', desk.reviewingSince, now);
    const pieces = timesheet.closeGap(now);
    const { recorder } = this.floor;
    if (recorder === null) return;
    for (const piece of pieces) {
      recorder.step({ instrument: this.number, ...piece, step: 'wait', tip: this.tipOn, take: null, drift: null });
    }
  }

  private record(
    name: StepName,
    activity: number,
    start: number,
    outside: number,
    take: Take | null,
    drift: StartedDrift | null,
  ): void {
    const { now } = this.sim;
    this.timesheet.step(activity, now, outside);
    const { recorder } = this.floor;
    if (recorder === null) return;
    const what = { activity: ACTIVITIES[activity], step: name, tip: this.tipOn, take, drift };
    recorder.step({ instrument: this.number, start, end: now, ...what });
  }
}
