import { PURPOSES } from '../chance/luck.js';
import { after, AT_ONCE, type Course, PAUSE, type Process } from '../kernel/simulation.js';
import { BeyondClock } from '../kernel/trace.js';
import type { Instrument } from './instrument.js';
import type { Take } from './ledger.js';
import type { ImageModel } from './model.js';
import { Noticing } from './noticing.js';
import { ExperimentOver, SampleOver } from './over.js';
import { RANK } from './ranks.js';
import { isForFlaggedTip, type MountedTip, type Remedy, remedyFor } from './replacing.js';
import { Scan } from './scan.js';
import type { InstrumentState } from './state.js';
import type { Need, Phase, StepName } from './steps.js';
import { ROW } from './timesheet.js';

/** The measuring loop of one instrument, from the set-up to the last image. */
export class Measuring {
  /** Every image is kept or given up, and no review or check is pending. */
  isFinished = false;
  /** How the instrument stood when it was stopped; null where it was not. */
  stopped: InstrumentState | null = null;
  private readonly noticing: Noticing;
  private readonly scan: Scan;
  /** The image for which a fit tip is being brought to its region; null between two takes. */
  private underWay: ImageModel | null = null;

  constructor(
    private readonly at: Instrument,
    /** Stops between two takes, the first time that it is this moment or later. */
    private readonly stopsAt: number,
  ) {
    this.noticing = new Noticing(at);
    this.scan = new Scan(at, this.noticing);
  }

  *run(): Process {
    try {
      for (let next: Course | null = this.open(); next !== null; next = this.next()) {
        try {
          // Most images need no waiting for: asked first, as delegating to nothing still costs something.
          if (next !== AT_ONCE) yield* next;
        } catch (reason) {
          if (!(reason instanceof SampleOver)) throw reason;
          this.at.station.note('the sample ends', () => reason.message);
        }
      }
      this.isFinished = this.stopped === null && (!this.at.worklist.hasLost || this.isThrough);
    } catch (reason) {
      if (!(reason instanceof ExperimentOver || reason instanceof BeyondClock)) throw reason;
      this.at.station.note('the experiment ends', () => reason.message);
      this.isFinished = this.isThrough;
    }
  }

  /** Nothing is missing, though something may have been due that cannot be had any more: only suspect images again, then. */
  private get isThrough(): boolean {
    const { station, worklist, ledger } = this.at;
    const isMissing = (image: ImageModel) => ledger.fate(image).fate === 'missing';
    return station.desk.isEmpty && !this.noticing.isCheckPending && !worklist.images.some(isMissing);
  }

  /** The start of the experiment, or the return to one that is under way. */
  private *open(): Process {
    const { at } = this;
    const { from } = at;
    if (from !== null) this.noticing.takeUp(from.unreviewed);
    const first = at.worklist.next();
    if (first === null) return;
    if (from?.isSetUp !== true) yield* at.begin(first);
  }

  /** What comes next; null where the instrument is through or is stopped. */
  private next(): Course | null {
    const { station, worklist } = this.at;
    const due = worklist.next();
    if (due === null || due !== this.underWay) {
      this.underWay = null;
      if (station.now >= this.stopsAt) {
        this.stopped = this.state;
        return null;
      }
      if (due === null) return station.desk.isEmpty ? null : station.desk.wait('hands');
    }
    const before = this.beforeScan(due);
    this.underWay = before === null ? null : due;
    return before ?? this.take(due);
  }

  private get state(): InstrumentState {
    const { at, noticing } = this;
    return {
      ...at.bareState,
      tips: at.tips.state,
      last: noticing.lastImage,
    };
  }

  /** What is to be done next to bring a fit tip of the right kind to the region of an image; null where nothing is. */
  private beforeScan(due: ImageModel): Course | null {
    const remedy = this.remedy(due);
    if (this.isProvided(remedy, due)) return null;
    return this.at.station.desk.isEmpty ? this.apply(remedy, due) : this.applyWhenReviewed(remedy, due);
  }

  private *applyWhenReviewed(remedy: Remedy, due: ImageModel): Process {
    const isHeldUp = yield* this.at.station.reviewedFirst(this.firstStep(remedy, due), this.phaseOf(remedy, due));
    if (!isHeldUp) yield* this.apply(remedy, due);
  }

  /** Nothing comes before the scan. */
  private isProvided(remedy: Remedy, due: ImageModel): boolean {
    const { at } = this;
    return remedy.what === 'nothing' && at.region === due.region && !at.isAwayForScan && !this.mounted.isUnchecked;
  }

  private get mounted(): MountedTip {
    const { mounted } = this.at.tips;
    if (mounted === null) throw new Error('No tip is on.');
    return mounted;
  }

  /** What is to be done about the tip before the next take. */
  private remedy(due: ImageModel): Remedy {
    for (;;) {
      const { model, floor, station, ledger } = this.at;
      const { mounted } = this.at.tips;
      if (mounted === null) return { what: 'change', why: 'another kind was needed' };
      const ruled = remedyFor(mounted, due, model);
      if (floor.advisor === null) return ruled;
      const takes = ledger.count(due);
      const situation = { time: station.now, instrument: station.number, mounted, due, takes, ruled };
      const remedy = floor.advisor.remedy(situation);
      if (remedy.what !== 'trust') return remedy;
      mounted.judgement = 'sound';
    }
  }

  /** Does what comes next before a scan. */
  private apply(remedy: Remedy, due: ImageModel): Course {
    const { at } = this;
    at.station.timesheet.row = isForFlaggedTip(remedy) ? ROW['flagged tip'] : ROW['as planned'];
    switch (remedy.what) {
      case 'clean':
        return this.clean(this.mounted, due);
      case 'recondition':
        return this.recondition(this.mounted, due);
      case 'change':
        return at.workflow.changeTip(due, remedy.why);
      case 'check':
        return this.noticing.check(this.mounted, due);
      default:
        if (at.sample !== due.sample) return at.changeSample(due);
        if (at.region !== due.region) return at.changeRegion(due);
        return at.isAwayForScan ? at.resume(due) : this.noticing.check(this.mounted, due);
    }
  }

  /** The step that comes next before a scan. */
  private firstStep({ what }: Remedy, due: ImageModel): StepName {
    const { station, workflow, region } = this.at;
    if (what === 'clean' || what === 'recondition' || what === 'check') return what;
    if (what === 'change') return station.engaged ? 'retract' : workflow.firstStep;
    if (region !== due.region) return station.engaged ? 'retract' : this.firstMove(due);
    if (this.at.isAwayForScan) return station.engaged ? workflow.returning : 'approach';
    return 'check';
  }

  /** With which step the way to another region begins where the tip is away from the surface. */
  private firstMove({ sample, region }: ImageModel): StepName {
    if (sample !== this.at.sample) return this.at.workflow.isToPrepare(sample) ? 'prepare' : 'changeSample';
    return this.at.isVisited(region) ? 'approach' : 'locate';
  }

  /** What that step is done for. */
  private phaseOf({ what }: Remedy, due: ImageModel): Phase {
    if (what === 'change') return 'changing tip';
    if (what !== 'nothing') return 'measuring';
    if (this.at.sample !== due.sample) return 'changing sample';
    if (this.at.region !== due.region) return 'changing region';
    return this.at.isAwayForScan ? 'resuming' : 'measuring';
  }

  private clean(mounted: MountedTip, due: ImageModel): Course {
    return after(this.at.step(this.at.steps.clean, 'measuring'), () => {
      mounted.cleanings += 1;
      mounted.clearedAt = this.at.station.now;
      const u = mounted.tip.draw(PURPOSES.cleaning, mounted.tip.cleanings);
      mounted.tip.cleanings += 1;
      if (u < this.at.model.settings.rules.cleanFirst.success) mounted.tip.clean();
      return this.afterRemedy(mounted, due);
    });
  }

  private recondition(mounted: MountedTip, due: ImageModel): Course {
    return after(this.at.step(this.at.steps.recondition, 'measuring'), () => {
      const { station } = this.at;
      const { newApex, breaks } = this.at.model.settings.rules.recondition;
      const { tip } = mounted;
      mounted.reconditionings += 1;
      mounted.clearedAt = station.now;
      const u = tip.draw(PURPOSES.reconditioning, tip.reconditionings);
      if (u < breaks) tip.break('reconditioning', station.now);
      else if (u < breaks + newApex) {
        tip.renewApex(tip.reconditionings);
        mounted.radiusRead = 0;
      }
      tip.reconditionings += 1;
      return this.afterRemedy(mounted, due);
    });
  }

  /** The retake follows, or after a failed check another check. */
  private afterRemedy(mounted: MountedTip, due: ImageModel): Course {
    this.at.tips.showTip();
    if (mounted.judgement === 'failed a check') return this.noticing.check(mounted, due);
    mounted.judgement = 'sound';
    return AT_ONCE;
  }

  /** One take of an image: scan, then review, then a check where one is due. */
  private take(due: ImageModel): Course {
    const { station } = this.at;
    station.due = due;
    station.timesheet.row = ROW['as planned'];
    const { need } = this.at.steps.scan;
    return station.claim(need, due.pass.duration) === 'not yet' ? this.takeWhenReady(due, need) : this.takeNow(due);
  }

  private *takeWhenReady(due: ImageModel, need: Need): Process {
    const { station, worklist } = this.at;
    // Late reviews may have come in, or the tip left the surface over a closing: what to do next is decided anew.
    if ((yield* station.readyOrChanged(need, due.pass.duration)) === 'changed') return;
    if (worklist.next() !== due || this.at.isAwayForScan || this.remedy(due).what !== 'nothing') return;
    yield* this.takeNow(due);
  }

  private takeNow(due: ImageModel): Course {
    const { scan } = this;
    scan.begin(due, this.mounted);
    return this.at.station.sim.sleepUntil(scan.start + due.pass.duration, RANK.stepEnd)
      ? after(PAUSE, () => this.judge(scan.end()))
      : this.judge(scan.end());
  }

  /** The image is reviewed, if the scan was not stopped; then the tip is checked where that is due. */
  private judge(take: Take): Course {
    const { stoppedBy } = this.scan;
    if (stoppedBy === null) {
      const review = this.noticing.review(take);
      // Most often there is nothing to wait for, and what follows needs no function of its own.
      return review === AT_ONCE ? this.checkAfter(take) : after(review, () => this.checkAfter(take));
    }
    this.mounted.seenBroken ||= stoppedBy === 'breakage';
    this.noticing.flag(take, take.start);
    return AT_ONCE;
  }

  private checkAfter(take: Take): Course {
    if (take.flaggedAt !== null) return AT_ONCE;
    const { at, mounted } = this;
    if (at.station.desk.isEmpty) mounted.trusted();
    const { check } = at.model.settings.noticing;
    return check !== undefined && mounted.tip.scansSinceCheck >= check.every
      ? this.noticing.check(mounted, at.worklist.next() ?? take.image)
      : AT_ONCE;
  }
}
