import { PURPOSES } from '../chance/luck.js';
import { AT_ONCE, type Course, type Process } from '../kernel/simulation.js';
import { imageQuality, isGood } from '../probe/image.js';
import type { ScanWatch, TipEvent } from '../probe/tip.js';
import type { Cause } from '../scenario/schema/scenario.js';
import { ACTIVITY_NUMBER } from './activities.js';
import type { Take } from './ledger.js';
import type { Instrument } from './instrument.js';
import type { ImageModel } from './model.js';
import { Noticing } from './noticing.js';
import { ExperimentOver } from './over.js';
import { RANK } from './ranks.js';
import { type MountedTip, type Remedy, remedyFor } from './replacing.js';
import type { InstrumentState } from './state.js';
import type { Phase, StepName } from './steps.js';

/** The measuring loop of one instrument, from the set-up to the last image. */
export class Measuring {
  /** Every image is kept or given up, and no review or check is pending. */
  isFinished = false;
  /** How the instrument stood when it was stopped; null where it was not. */
  stopped: InstrumentState | null = null;
  private readonly noticing: Noticing;

  constructor(
    private readonly at: Instrument,
    /** Stops between two takes, the first time that it is this moment or later. */
    private readonly stopsAt: number,
  ) {
    this.noticing = new Noticing(at);
  }

  *run(): Process {
    try {
      yield* this.open();
      for (;;) {
        if (this.at.station.now >= this.stopsAt) {
          this.stopped = this.state;
          return;
        }
        const due = this.at.worklist.next();
        if (due !== null) {
          yield* this.provideFor(due);
          if (this.at.worklist.next() === due) yield* this.take(due);
        } else if (!this.at.station.desk.isEmpty) {
          yield* this.at.station.desk.wait('hands');
        } else {
          break;
        }
      }
      this.isFinished = true;
    } catch (reason) {
      if (!(reason instanceof ExperimentOver)) throw reason;
      this.at.station.note('the experiment ends', () => reason.message);
    }
  }

  /** The start of the experiment, or the return to one that is under way. */
  private *open(): Process {
    const { at } = this;
    const { from } = at;
    if (from !== null) this.noticing.takeUp(from.unreviewed);
    const first = at.worklist.next();
    if (first === null) return;
    if (from?.isSetUp !== true) yield* at.begin(first);
    else if (at.tips.mounted === null) yield* at.workflow.changeTip(first, 'another kind was needed');
  }

  private get state(): InstrumentState {
    const { at, noticing } = this;
    return {
      ...at.bareState,
      tips: at.tips.state,
      last: noticing.lastImage,
    };
  }

  /** Brings a fit tip of the right kind to the region of the image that is due, unless another has become due meanwhile. */
  private provideFor(due: ImageModel): Course {
    const remedy = this.remedy(due);
    return this.isProvided(remedy, due) ? AT_ONCE : this.provide(remedy, due);
  }

  private *provide(first: Remedy, due: ImageModel): Process {
    const { station, worklist } = this.at;
    for (let remedy = first; !this.isProvided(remedy, due); remedy = this.remedy(due)) {
      const isHeldUp =
        !station.desk.isEmpty && (yield* station.reviewedFirst(this.firstStep(remedy, due), this.phaseOf(remedy, due)));
      if (!isHeldUp) yield* this.apply(remedy, due);
      if (worklist.next() !== due) return;
    }
  }

  /** Nothing comes before the scan. */
  private isProvided(remedy: Remedy, due: ImageModel): boolean {
    const { at } = this;
    return remedy.what === 'nothing' && at.region === due.region && !at.isAway('scan') && !this.mounted.isUnchecked;
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
      const { mounted } = this;
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
    const { at, mounted } = this;
    switch (remedy.what) {
      case 'clean':
        return this.clean(mounted, due);
      case 'recondition':
        return this.recondition(mounted, due);
      case 'change':
        return at.workflow.changeTip(due, remedy.why);
      case 'check':
        return this.noticing.check(mounted, due);
      default:
        if (at.region !== due.region) return at.changeRegion(due);
        return at.isAway('scan') ? at.resume(due) : this.noticing.check(mounted, due);
    }
  }

  /** The step that comes next before a scan. */
  private firstStep({ what }: Remedy, due: ImageModel): StepName {
    const { station, workflow, region } = this.at;
    if (what === 'clean' || what === 'recondition' || what === 'check') return what;
    if (what === 'change') return station.engaged ? 'retract' : workflow.firstStep;
    if (region !== due.region) return station.engaged ? 'retract' : this.at.isVisited(due.region) ? 'approach' : 'locate';
    if (this.at.isAway('scan')) return station.engaged ? workflow.returning : 'approach';
    return 'check';
  }

  /** What that step is done for. */
  private phaseOf({ what }: Remedy, due: ImageModel): Phase {
    if (what === 'change') return 'changing tip';
    if (what !== 'nothing') return 'measuring';
    if (this.at.region !== due.region) return 'changing region';
    return this.at.isAway('scan') ? 'resuming' : 'measuring';
  }

  private *clean(mounted: MountedTip, due: ImageModel): Process {
    const { station } = this.at;
    yield* this.at.step('clean', 'measuring');
    mounted.cleanings += 1;
    mounted.cleanedAt = station.now;
    const u = mounted.tip.draw(PURPOSES.cleaning, mounted.tip.cleanings);
    mounted.tip.cleanings += 1;
    if (u < this.at.model.settings.rules.cleanFirst.success) mounted.tip.clean();
    yield* this.afterRemedy(mounted, due);
  }

  private *recondition(mounted: MountedTip, due: ImageModel): Process {
    const { station } = this.at;
    yield* this.at.step('recondition', 'measuring');
    const { newApex, breaks } = this.at.model.settings.rules.recondition;
    const { tip } = mounted;
    mounted.reconditionings += 1;
    mounted.cleanedAt = station.now;
    const u = tip.draw(PURPOSES.reconditioning, tip.reconditionings);
    if (u < breaks) tip.break('reconditioning', station.now);
    else if (u < breaks + newApex) {
      tip.renewApex(tip.reconditionings);
      mounted.radiusRead = 0;
    }
    tip.reconditionings += 1;
    yield* this.afterRemedy(mounted, due);
  }

  /** The retake follows, or after a failed check another check. */
  private *afterRemedy(mounted: MountedTip, due: ImageModel): Process {
    this.at.tips.showTip();
    if (mounted.judgement === 'failed a check') yield* this.noticing.check(mounted, due);
    else mounted.judgement = 'sound';
  }

  /** One take of an image: scan, then review, then a check where one is due. */
  private *take(due: ImageModel): Process {
    const { at } = this;
    const { station } = at;
    const { duration } = due.pass;
    station.due = due;
    const need = station.needOf('scan', false, 'measuring');
    if (station.claim(need, duration) === 'not yet') {
      yield* station.readyOrReopened(need, duration);
      // Late reviews may have come in, or the tip left the surface over a closing: what to do next is decided anew.
      if (at.worklist.next() !== due || at.isAway('scan') || this.remedy(due).what !== 'nothing') return;
    }
    const scan = this.beginScan(due);
    if (station.sim.sleepUntil(scan.start + duration, RANK.stepEnd)) yield;
    const take = this.endScan(scan);

    const { mounted, stoppedBy } = scan;
    if (stoppedBy === null) {
      yield* this.noticing.review(take);
    } else {
      mounted.seenBroken ||= stoppedBy === 'breakage';
      this.noticing.flag(take);
    }
    if (take.flaggedAt !== null) return;
    if (station.desk.isEmpty) mounted.trusted();
    const { check } = at.model.settings.noticing;
    if (check !== undefined && mounted.tip.scansSinceCheck >= check.every)
      yield* this.noticing.check(mounted, at.worklist.next() ?? due);
  }

  /** Starts a scan; how it will go for the tip is known at once, and one that will be stopped is interrupted then. */
  private beginScan(due: ImageModel): RunningScan {
    const { station } = this.at;
    const { sim } = station.floor;
    const scan = new RunningScan(this.at, this.noticing, due, this.mounted);
    const { tip } = scan.mounted;
    const { demand } = due.pass;
    const outcome = tip.scan(due.pass, demand.electrical, scan);
    scan.end = scan.timeAt(outcome.done);
    scan.stoppedBy = outcome.stoppedBy;
    if (outcome.stoppedBy !== null) {
      sim.interruptAt(sim.active, scan.end, RANK.noticing, outcome.stoppedBy);
    } else {
      scan.quality = imageQuality(demand, outcome.radius, outcome.state);
      tip.scansSinceCheck += 1;
      // The apex is to blame only where a perfectly sharp one would have given a good image.
      if (outcome.state === 1 && !isGood(demand, scan.quality) && isGood(demand, imageQuality(demand, 0, 1))) {
        tip.isBlunt = true;
        tip.markSpoiled('blunting', scan.end);
      }
    }
    station.begin();
    return scan;
  }

  /** A scan has ended, whole or not; gives the take. */
  private endScan({ due, mounted, start, end, quality }: RunningScan): Take {
    const { station, ledger, tips, worklist } = this.at;
    const previous = ledger.last(due);
    const running = previous === null ? 0 : previous.running + 1;
    const { tip } = mounted;
    const good = isGood(due.pass.demand, quality);
    const take: Take = { image: due, running, previous, tip, start, end, quality, good, flaggedAt: null, voidAt: null };
    station.end('scan', ACTIVITY_NUMBER['scanning kept'], start, false, take);
    ledger.add(take);
    tips.scanned();
    worklist.took(due);
    this.noticing.taken(take, mounted);
    tips.showTip();
    return take;
  }
}

/** A scan from its start to its end: tells the tip the clock, and whether what happens to it is noticed. */
class RunningScan implements ScanWatch {
  readonly start: number;
  /** Microseconds. */
  end = 0;
  /** True quality of the image; 0 for a stopped scan. */
  quality = 0;
  /** What was seen to happen to the tip, if that stopped the scan. */
  stoppedBy: Cause | null = null;

  constructor(
    private readonly at: Instrument,
    private readonly noticing: Noticing,
    readonly due: ImageModel,
    readonly mounted: MountedTip,
  ) {
    this.start = at.station.now;
  }

  timeAt(fraction: number): number {
    return this.start + Math.floor(fraction * this.due.pass.duration + 0.5);
  }

  stopsAt(event: TipEvent): number {
    const { at, due, start } = this;
    const { floor, number } = at.station;
    const moment = this.timeAt(event.at);
    floor.recorder?.event(moment, number, event.cause, `${at.tips.label()}, in mid-scan`);
    const noticed = this.noticing.noticedAt(event, moment, due, at.ledger.count(due), start);
    return (noticed - start) / due.pass.duration;
  }
}
