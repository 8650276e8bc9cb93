import type { Simulation } from '../kernel/simulation.js';
import type { Tip } from '../probe/tip.js';
import { type CampaignContext, isUnhindered } from './context.js';
import { ReviewQueue } from './review-queue.js';
import { InstrumentDrift, NO_DRIFT } from './instrument-drift.js';
import { ACTIVITIES, ACTIVITY_NUMBER } from './activities.js';
import type { Take } from './ledger.js';
import type { ImageModel } from './model.js';
import type { StepModel } from './step-model.js';
import { StepDraws } from './step-draws.js';
import { RANK } from './ranks.js';
import type { StartedDrift } from './recorder.js';
import type { ImageDrift, StationState } from './state.js';
import { type Need, STEP_NUMBER, type StepName } from './steps.js';
import { type Mark, Timesheet } from './timesheet.js';

const SETTLE = STEP_NUMBER.settle;
const PREPARING = ACTIVITY_NUMBER['preparing and setting up'];

/**
 * The time of one instrument: steps that start only inside a booking and with who is needed, what happens when it has
 * stood idle over a closing, and where its time went.
 */
export class Scheduler {
  readonly sim: Simulation;
  readonly timesheet: Timesheet;
  readonly reviews: ReviewQueue;
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
   * Nothing ever holds up a step. Not where a campaign
   * is taken up, since takes may then wait for their reviews.
   */
  readonly isUnhindered: boolean;
  /** Up to this moment nothing holds up a step that fits before it; 0 where that is not known. */
  calmUntil = 0;
  /** Microseconds of work at the bench before the start. */
  benchTime = 0;
  /** When the step began that ended last. */
  begunAt: number;

  readonly draws: StepDraws;
  /** Null where nothing drifts. */
  private readonly drift: InstrumentDrift | null;
  /** End of the booking in which it last worked; 0 before it has. */
  bookedUntil = 0;
  lastWorked: number;
  warm = false;
  openings = 0;
  /** One of the operators was asked for, and is held. */
  holdsOperator = false;

  constructor(
    readonly context: CampaignContext,
    readonly number: number,
    from: StationState | null = null,
  ) {
    const { bookings, start, images } = context.model;
    this.isUnhindered = isUnhindered(context.model) && from === null;
    this.sim = context.sim;
    this.timesheet = new Timesheet(bookings, start);
    this.reviews = new ReviewQueue(context, number, this.timesheet);
    this.lastWorked = from?.lastWorked ?? start;
    if (this.isUnhindered) this.bookedUntil = this.calmUntil = Infinity;
    this.begunAt = start;
    this.draws = new StepDraws(context.luck, number, from);
    const { drift } = context.model;
    this.drift = drift === null ? null : new InstrumentDrift(drift, number, context.luck, from?.drift ?? null);
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
      ...this.draws.state,
      drift: this.drift?.state ?? null,
    };
  }

  get now(): number {
    return this.sim.now;
  }

  /** Work at the bench before the start, on the operator's time alone. */
  aheadOnBench(step: StepModel): void {
    this.benchTime += this.nextDuration(step);
  }

  /** Work at the bench that has begun, while the instrument waits, has ended. */
  endAtBench({ name }: StepModel): void {
    this.releaseHands();
    const start = this.timesheet.accountedTo;
    const duration = this.now - start;
    this.operatorTime += duration;
    const outside = duration - this.context.model.bookings.openBetween(start, this.now);
    this.timesheet.step(PREPARING, this.now, outside);
    if (this.isTold) this.tell(name, PREPARING, start, null, null);
  }

  /** The first warm-up is done: from now on an idle closing costs another. */
  warmedUp(): void {
    this.warm = true;
  }

  /**
   * Claims what a step needs if it may start this instant, as it nearly always may: an operator's hands, or nothing.
   * False: it is to wait.
   */
  mayStart(need: Need, room: number, isAtBench: boolean): boolean {
    const { now } = this.sim;
    if (now < this.calmUntil && this.calmUntil - now >= room) return true;
    if (isAtBench || !this.isBookedFor(room) || this.reviews.holdsUp(need)) return false;
    const { context } = this;
    const { isAttended } = context;
    if (isAttended && context.areOperatorsEnough && this.reviews.isEmpty) {
      this.calmUntil = Math.min(this.bookedUntil, context.model.presence.closing(now));
      return true;
    }
    if (need !== 'hands') return need === 'nobody' || isAttended;
    // Another instrument's arrival in this instant may come first: then the queue decides.
    if (!context.hasFreeOperator || !context.sim.isNext(now, RANK.start)) return false;
    if (context.operators.request(1, this.number)) throw new Error('A free operator was not granted at once.');
    this.holdsOperator = true;
    return true;
  }

  /** The tip is away from the surface; the region is to be found again, except after a dead site. */
  away(isFromDeadSite: boolean): void {
    this.engaged = false;
    if (!isFromDeadSite) this.found = false;
  }

  /** Lets go of an operator's hands that are held. */
  releaseHands(): void {
    // Where there are always enough, nobody keeps count.
    if (!this.holdsOperator) return;
    this.holdsOperator = false;
    this.context.operators.release();
  }

  /** A step starts that is ready: whatever lay before it was waiting. */
  begin(): void {
    if (this.timesheet.accountedTo !== this.sim.now) this.closeGap();
  }

  /** A step that has begun has ended; `activity` is the number of what it counts as. */
  end(step: StepModel, activity: number, hands: boolean, take: Take | null): void {
    const { now } = this.sim;
    const start = this.timesheet.accountedTo;
    if (hands) {
      this.releaseHands();
      this.operatorTime += now - start;
    }
    let outside = 0;
    if (now > this.bookedUntil) {
      const { bookings } = this.context.model;
      outside = now - start - bookings.openBetween(start, now);
      this.overrun += outside;
      if (bookings.isOpen(now)) this.bookedUntil = bookings.closing(now);
    }
    this.lastWorked = now;
    this.begunAt = start;
    if (take !== null) this.openings = 0;
    const drift = this.drift?.stepEnded(step, now) ?? null;
    this.timesheet.step(activity, now, outside);
    if (this.isTold) this.tell(step.name, activity, start, take, drift);
  }

  /** Up to this moment, not including it, nothing holds up steps and nothing else happens. */
  get quietUntil(): number {
    return Math.min(this.calmUntil, this.sim.quietUntil);
  }

  /** Steps that need nothing noted, of which the last began at `begun`, have gone on up to a moment before `quietUntil`. */
  passTo(moment: number, begun: number): void {
    this.sim.passTo(moment);
    this.timesheet.accountedTo = moment;
    this.lastWorked = moment;
    this.begunAt = begun;
  }

  /** Whether anybody is told of what happens. */
  get isTold(): boolean {
    return this.context.recorder !== null;
  }

  /** Tells the recorder, where there is one, of something that happens now; the detail is put into words only then. */
  note(what: string, detail: () => string): void {
    const { recorder } = this.context;
    if (recorder !== null) recorder.event(this.now, this.number, what, detail());
  }

  /** A try since a mark of the timesheet has failed. */
  failedSince(mark: Mark, whatNow: () => string): void {
    this.timesheet.moveSince(mark, 'failed try');
    this.note('failed', whatNow);
  }

  /** Microseconds that a step takes which is about to be done. */
  nextDuration(step: StepModel): number {
    const drawn = this.draws.next(step);
    return step.number === SETTLE ? this.settlingTime(step, drawn) : drawn;
  }

  /** Settling lasts its time, or until drift has come down; before a critical pass perhaps longer. */
  private settlingTime({ until }: StepModel, drawn: number): number {
    if (until === null && this.due?.pass.critical !== true) return drawn;
    const untilSettled = (rate: number | null) => (rate === null ? 0 : (this.drift?.waitUntil(rate, this.now) ?? 0));
    const usual = until === null ? drawn : untilSettled(until);
    if (this.due?.pass.critical !== true) return usual;
    const { criticalSettling } = this.context.model;
    return Math.max(usual, criticalSettling.time, untilSettled(criticalSettling.until));
  }

  get drifts(): boolean {
    return this.drift !== null;
  }

  /** Drift of an image that is scanned between two moments (microseconds), of which its pass bears `tolerance` (nm). */
  driftOver(from: number, to: number, tolerance: number | undefined): ImageDrift {
    return this.drift?.ofImage(from, to, tolerance) ?? NO_DRIFT;
  }

  /** Inside the booking in which it last worked, with `room` microseconds left. */
  isBookedFor(room: number): boolean {
    return this.now < this.bookedUntil && this.bookedUntil - this.now >= room;
  }

  private closeGap(): void {
    const { reviews, timesheet, now } = this;
    if (reviews.reviewingSince !== null) timesheet.waited('reviewing', reviews.reviewingSince, now);
    const pieces = timesheet.closeGap(now);
    const { recorder } = this.context;
    if (recorder === null) return;
    for (const piece of pieces) {
      recorder.step({ instrument: this.number, ...piece, step: 'wait', tip: this.tipOn, take: null, drift: null });
    }
  }

  private tell(name: StepName, activity: number, start: number, take: Take | null, drift: StartedDrift | null): void {
    const what = { activity: ACTIVITIES[activity], step: name, tip: this.tipOn, take, drift };
    this.context.recorder?.step({ instrument: this.number, start, end: this.sim.now, ...what });
  }
}
