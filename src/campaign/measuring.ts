import type { Resumable } from '../kernel/simulation.js';
import { BeyondClock } from '../kernel/trace.js';
import { Interpreter } from './interpreter.js';
import type { Procedures } from './procedures.js';
import type { Workplace } from './workplace.js';
import type { ImageModel } from './model.js';
import { ExperimentOver, SampleOver } from './over.js';
import type { Procedure } from './procedure.js';
import type { Wait } from './wait.js';
import { isForFlaggedTip, type Remedy } from './replacing.js';
import type { InstrumentState } from './state.js';
import { Takes } from './takes.js';
import type { Phase, StepName } from './steps.js';
import { ROW } from './timesheet.js';

const THROUGH = { done: true, value: undefined } as const;
const SUSPENDED = { done: false, value: undefined } as const;

/** The measuring loop of one instrument, from the set-up to the last image: which procedure comes next. */
export class Measuring implements Resumable {
  /** Every image is kept or given up, and no review or check is pending. */
  isFinished = false;
  /** How the instrument stood when it was stopped; null where it was not. */
  stopped: InstrumentState | null = null;
  private readonly interpreter: Interpreter;
  private readonly takes: Takes;
  private isBegun = false;
  /** The image for which a fit tip is being brought to its region; null between two takes. */
  private underWay: ImageModel | null = null;
  /** What is to be done, where late reviews had to be waited for and left it as it was. */
  private held: Remedy | null = null;

  constructor(
    private readonly at: Workplace,
    private readonly procedures: Procedures,
    /** Stops between two takes, the first time that it is this moment or later. */
    private readonly stopsAt: number,
  ) {
    this.interpreter = new Interpreter(at, procedures.back);
    this.takes = new Takes(at);
  }

  /** Goes on until the next suspension, or the end. */
  next(reason: unknown): typeof SUSPENDED | typeof THROUGH {
    const { at } = this;
    for (let given = reason; ; given = undefined) {
      try {
        if (!this.isBegun) this.open();
        do if (this.interpreter.isSuspended(given)) return SUSPENDED;
        while (this.decide());
        this.isFinished = this.stopped === null && (!at.worklist.hasLost || this.isThrough);
        return THROUGH;
      } catch (error) {
        if (!(error instanceof SampleOver || error instanceof ExperimentOver || error instanceof BeyondClock))
          throw error;
        this.interpreter.abandon();
        this.procedures.workflow.givenUp?.(at);
        const isSample = error instanceof SampleOver;
        at.scheduler.note(`the ${isSample ? 'sample' : 'experiment'} ends`, () => error.message);
        if (isSample) continue;
        this.isFinished = this.isThrough;
        return THROUGH;
      }
    }
  }

  /** Nothing is missing, though something may have been due that cannot be had any more: only suspect images again, then. */
  private get isThrough(): boolean {
    const { scheduler, worklist, ledger, noticing } = this.at;
    const isMissing = (image: ImageModel) => ledger.fate(image).fate === 'missing';
    return scheduler.reviews.isEmpty && !noticing.isCheckPending && !worklist.images.some(isMissing);
  }

  /** The start of the experiment, or the return to one that is under way. */
  private open(): void {
    const { at } = this;
    const { from } = at;
    this.isBegun = true;
    if (from !== null) at.noticing.takeUp(from.unreviewed);
    const first = at.worklist.next();
    if (first !== null && from?.isSetUp !== true) this.interpreter.begin(this.procedures.begin, first);
  }

  /** Begins what comes next; false where the instrument is through or is stopped. */
  private decide(): boolean {
    const { at, held } = this;
    const { interpreter, procedures } = this;
    const { scheduler, worklist } = at;
    const due = worklist.next();
    if (held !== null && due !== null) {
      this.held = null;
      this.apply(held, due);
      return true;
    }
    if (due === null || due !== this.underWay) {
      this.underWay = null;
      if (scheduler.now >= this.stopsAt) {
        this.stopped = { ...at.bareState, last: at.noticing.lastImage };
        return false;
      }
      if (due === null) {
        if (scheduler.reviews.isEmpty) return false;
        this.wait(scheduler.reviews.wait('hands'));
        return true;
      }
    }
    const remedy = at.remedyFor(due);
    if (this.isProvided(remedy, due)) {
      this.underWay = null;
      scheduler.due = due;
      scheduler.timesheet.row = ROW['as planned'];
      if (this.takes.make(due, this.stopsAt)) interpreter.begin(procedures.afterReview, at.due);
      else interpreter.begin(procedures.take, due);
      return true;
    }
    this.underWay = due;
    if (scheduler.reviews.isEmpty) this.apply(remedy, due);
    else this.wait(this.reviewedFirst(remedy, due));
    return true;
  }

  private wait(wait: Wait): void {
    this.at.waitsFor = wait;
    this.interpreter.begin(this.procedures.wait, this.at.due);
  }

  private *reviewedFirst(remedy: Remedy, due: ImageModel): Wait {
    const ready = yield* this.at.waits.reviewedFirst(this.firstStep(remedy, due), this.phaseOf(remedy, due));
    if (ready !== 'changed') this.held = remedy;
    return ready;
  }

  /** Nothing comes before the scan. */
  private isProvided(remedy: Remedy, due: ImageModel): boolean {
    const { at } = this;
    return remedy.what === 'nothing' && at.region === due.region && !at.isAwayForScan && !at.mounted.isUnchecked;
  }

  /** Does what comes next before a scan. */
  private apply(remedy: Remedy, due: ImageModel): void {
    const { at } = this;
    at.scheduler.timesheet.row = isForFlaggedTip(remedy) ? ROW['flagged tip'] : ROW['as planned'];
    if (remedy.what === 'change') at.why = remedy.why;
    this.interpreter.begin(this.procedureFor(remedy, due), due);
  }

  private procedureFor({ what }: Remedy, due: ImageModel): Procedure {
    const { at } = this;
    const { procedures } = this;
    switch (what) {
      case 'clean':
        return procedures.clean;
      case 'recondition':
        return procedures.recondition;
      case 'change':
        return procedures.changeTip;
      case 'check':
        return procedures.check;
      default:
        if (at.sample !== due.sample) return procedures.changeSample;
        if (at.region !== due.region) return procedures.changeRegion;
        return at.isAwayForScan ? procedures.back['after finding'] : procedures.check;
    }
  }

  /** The step that comes next before a scan. */
  private firstStep({ what }: Remedy, due: ImageModel): StepName {
    const { scheduler, traits, region } = this.at;
    if (what === 'clean' || what === 'recondition' || what === 'check') return what;
    if (what === 'change') return scheduler.engaged ? 'retract' : traits.firstStep;
    if (region !== due.region) return scheduler.engaged ? 'retract' : this.firstMove(due);
    if (this.at.isAwayForScan) return scheduler.engaged ? traits.returning : 'approach';
    return 'check';
  }

  /** With which step the way to another region begins where the tip is away from the surface. */
  private firstMove({ sample, region }: ImageModel): StepName {
    const { at } = this;
    if (sample !== at.sample)
      return at.traits.hasChips && at.specimens.isToPrepare(sample) ? 'prepare' : 'changeSample';
    return at.isVisited(region) ? 'approach' : 'locate';
  }

  /** What that step is done for. */
  private phaseOf({ what }: Remedy, due: ImageModel): Phase {
    if (what === 'change') return 'changing tip';
    if (what !== 'nothing') return 'measuring';
    if (this.at.sample !== due.sample) return 'changing sample';
    if (this.at.region !== due.region) return 'changing region';
    return this.at.isAwayForScan ? 'resuming' : 'measuring';
  }
}
