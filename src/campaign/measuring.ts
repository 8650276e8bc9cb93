import { PURPOSES } from '../chance/luck.js';
import type { Process } from '../kernel/simulation.js';
import { imageQuality, isGood } from '../probe/image.js';
import type { TipEvent } from '../probe/tip.js';
import type { Cause } from '../scenario/schema/scenario.js';
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
      this.at.station.note('the experiment ends', reason.message);
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
      tips: at.tips.stateWith((mounted) => noticing.unconfirmedOf(mounted)),
      last: noticing.lastImage,
    };
  }

  /** Brings a fit tip of the right kind to the region of the image that is due, unless another has become due meanwhile. */
  private *provideFor(due: ImageModel): Process {
    const { at } = this;
    while (at.worklist.next() === due) {
      const { mounted } = at.tips;
      if (mounted === null) throw new Error('No tip is on.');
      const remedy = this.remedy(mounted, due);
      if (remedy.what === 'trust') {
        mounted.judgement = 'sound';
        continue;
      }
      const isElsewhere = at.region !== due.region;
      const first = this.firstStep(remedy.what, isElsewhere, mounted.isUnchecked, due);
      if (first === null) return;
      if (yield* at.station.reviewedFirst(first.step, first.phase)) continue;
      if (remedy.what === 'clean') yield* this.clean(mounted, due);
      else if (remedy.what === 'recondition') yield* this.recondition(mounted, due);
      else if (remedy.what === 'change') yield* at.workflow.changeTip(due, remedy.why);
      else if (remedy.what === 'check') yield* this.noticing.check(mounted, due);
      else if (isElsewhere) yield* at.changeRegion(due);
      else if (at.isAway('scan')) yield* at.resume(due);
      else yield* this.noticing.check(mounted, due);
    }
  }

  /** What is to be done about the tip before the next take. */
  private remedy(mounted: MountedTip, due: ImageModel): Remedy {
    const { model, floor, station, ledger } = this.at;
    const ruled = remedyFor(mounted, due, model);
    if (floor.advisor === null) return ruled;
    const takes = ledger.takes[due.number].length;
    return floor.advisor.remedy({ time: station.now, instrument: station.number, mounted, due, takes, ruled });
  }

  /** The step that comes next before a scan, or null where the scan itself does. */
  private firstStep(
    remedy: Exclude<Remedy['what'], 'trust'>,
    isElsewhere: boolean,
    isUnchecked: boolean,
    due: ImageModel,
  ): { readonly step: StepName; readonly phase: Phase } | null {
    const { at } = this;
    if (remedy === 'clean' || remedy === 'recondition' || remedy === 'check')
      return { step: remedy, phase: 'measuring' };
    if (remedy === 'change')
      return { step: at.station.engaged ? 'retract' : at.workflow.firstStep, phase: 'changing tip' };
    if (isElsewhere) {
      const step = at.station.engaged ? 'retract' : at.isVisited(due.region) ? 'approach' : 'locate';
      return { step, phase: 'changing region' };
    }
    if (at.isAway('scan')) return { step: at.station.engaged ? at.workflow.returning : 'approach', phase: 'resuming' };
    return isUnchecked ? { step: 'check', phase: 'measuring' } : null;
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
    station.due = due;
    const need = station.needOf('scan', false, 'measuring');
    if (station.claim(need, due.pass.duration) === 'not yet') yield* station.readyOrReopened(need, due.pass.duration);
    const { mounted } = at.tips;
    if (mounted === null) throw new Error('No tip is on.');
    // Late reviews may have come in, or the tip left the surface over a closing: what to do next is decided anew.
    if (at.worklist.next() !== due || at.isAway('scan') || this.remedy(mounted, due).what !== 'nothing') return;

    const { take, seen } = yield* this.scan(due, mounted);
    if (seen !== null) {
      mounted.seenBroken ||= seen === 'breakage';
      this.noticing.flag(take);
    } else {
      yield* this.noticing.review(take);
    }
    if (take.flaggedAt !== null) return;
    if (station.desk.isEmpty) mounted.trusted();
    const { check } = at.model.settings.noticing;
    if (check !== undefined && mounted.tip.scansSinceCheck >= check.every)
      yield* this.noticing.check(mounted, at.worklist.next() ?? due);
  }

  /** Scans; gives the take, and what was seen to happen to the tip if that stopped the scan. */
  private *scan(due: ImageModel, mounted: MountedTip): Generator<void, { take: Take; seen: Cause | null }, unknown> {
    const { at } = this;
    const { station, ledger } = at;
    const { sim } = station.floor;
    const { tip } = mounted;
    const { demand, duration } = due.pass;
    const takes = ledger.takes[due.number];
    const start = station.now;
    const timeAt = (fraction: number) => start + Math.floor(fraction * duration + 0.5);
    const outcome = tip.scan(
      due.pass,
      demand.electrical,
      (event) => {
        const moment = timeAt(event.at);
        this.tellOf(event, moment);
        return (this.noticing.noticedAt(event, moment, due, takes.length, start) - start) / duration;
      },
      timeAt,
    );
    const isWhole = outcome.stoppedBy === null;
    const end = timeAt(outcome.done);
    const quality = isWhole ? imageQuality(demand, outcome.radius, outcome.state) : 0;
    const take: Take = { image: due, running: takes.length, tip, start, end, quality, flaggedAt: null, voidAt: null };
    if (isWhole) {
      tip.scansSinceCheck += 1;
      // The apex is to blame only where a perfectly sharp one would have given a good image.
      if (outcome.state === 1 && !isGood(demand, quality) && isGood(demand, imageQuality(demand, 0, 1))) {
        tip.isBlunt = true;
        tip.markSpoiled('blunting', end);
      }
    }
    if (!isWhole) sim.interruptAt(sim.active, end, RANK.noticing, outcome.stoppedBy);
    station.begin();
    if (sim.sleepUntil(start + duration, RANK.stepEnd)) yield;
    station.end('scan', 'scanning kept', start, false, take);
    takes.push(take);
    at.tips.scanned();
    at.worklist.took(due);
    this.noticing.taken(take, mounted);
    at.tips.showTip();
    return { take, seen: outcome.stoppedBy };
  }

  /** Tells the recorder, where there is one, of what happens to the tip during a scan, noticed or not. */
  private tellOf(event: TipEvent, time: number): void {
    const { floor, station } = this.at;
    floor.recorder?.event(time, station.number, event.cause, `${this.at.tips.label()}, in mid-scan`);
  }
}
