import { PURPOSES } from '../chance/luck.js';
import { normalQuantile } from '../chance/normal.js';
import type { Process } from '../kernel/simulation.js';
import { imageQuality, isGood, startingQuality } from '../probe/image.js';
import type { TipEvent } from '../probe/tip.js';
import type { Cause } from '../scenario/schema/scenario.js';
import type { Take } from './ledger.js';
import type { Instrument } from './instrument.js';
import { microseconds } from '../kernel/clock.js';
import type { ImageModel } from './model.js';
import { ExperimentOver } from './over.js';
import { RANK } from './ranks.js';
import { type MountedTip, type Remedy, remedyFor } from './replacing.js';
import type { Phase, StepName } from './steps.js';

/** Draws of one take are numbered by take and event: this many events of one scan are told apart. */
const EVENTS_PER_TAKE = 4096;

/** The measuring loop of one instrument, from the set-up to the last image. */
export class Measuring {
  /** Every image is kept or given up, and no review or check is pending. */
  isFinished = false;
  /** The image taken last by the tip that is on. */
  private last: ImageModel | null = null;
  /** Takes since the last passed check, by the tip that made them. */
  private unconfirmed = new WeakMap<MountedTip, Take[]>();

  constructor(private readonly at: Instrument) {}

  *run(): Process {
    try {
      const first = this.at.worklist.next();
      if (first !== null) yield* this.at.begin(first);
      for (;;) {
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

  /** Brings a fit tip of the right kind to the region of the image that is due, unless another has become due meanwhile. */
  private *provideFor(due: ImageModel): Process {
    const { at } = this;
    while (at.worklist.next() === due) {
      const { mounted } = at;
      if (mounted === null) throw new Error('No tip is on.');
      const remedy = remedyFor(mounted, due, at.model);
      const isElsewhere = at.region !== due.region;
      const first = this.firstStep(remedy.what, isElsewhere, mounted.isUnchecked, due);
      if (first === null) return;
      if (yield* at.station.reviewedFirst(first.step, first.phase)) continue;
      if (remedy.what === 'clean') yield* this.clean(mounted, due);
      else if (remedy.what === 'recondition') yield* this.recondition(mounted, due);
      else if (remedy.what === 'change') yield* at.workflow.changeTip(due, remedy.why);
      else if (isElsewhere) yield* at.changeRegion(due);
      else if (at.isAway('scan')) yield* at.resume(due);
      else yield* this.check(mounted, due);
    }
  }

  /** The step that comes next before a scan, or null where the scan itself does. */
  private firstStep(
    remedy: Remedy['what'],
    isElsewhere: boolean,
    isUnchecked: boolean,
    due: ImageModel,
  ): { readonly step: StepName; readonly phase: Phase } | null {
    const { at } = this;
    if (remedy === 'clean' || remedy === 'recondition') return { step: remedy, phase: 'measuring' };
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
    this.at.showTip();
    if (mounted.judgement === 'failed a check') yield* this.check(mounted, due);
    else mounted.judgement = 'sound';
  }

  /** One take of an image: scan, then review, then a check where one is due. */
  private *take(due: ImageModel): Process {
    const { at } = this;
    const { station } = at;
    station.due = due;
    const need = station.needOf('scan', false, 'measuring');
    if (station.claim(need, due.pass.duration) === 'not yet') yield* station.readyOrReopened(need, due.pass.duration);
    const { mounted } = at;
    if (mounted === null) throw new Error('No tip is on.');
    // Late reviews may have come in, or the tip left the surface over a closing: what to do next is decided anew.
    if (at.worklist.next() !== due || at.isAway('scan') || remedyFor(mounted, due, at.model).what !== 'nothing') return;

    const { take, seen } = yield* this.scan(due, mounted);
    if (seen !== null) {
      mounted.seenBroken ||= seen === 'breakage';
      this.flag(take);
    } else {
      yield* this.review(take);
    }
    if (take.flaggedAt !== null) return;
    if (station.desk.isEmpty) mounted.trusted();
    const { check } = at.model.settings.noticing;
    if (check !== undefined && mounted.tip.scansSinceCheck >= check.every)
      yield* this.check(mounted, at.worklist.next() ?? due);
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
    const outcome = tip.scan(
      due.pass,
      demand.electrical,
      (event) => {
        this.tellOf(event, start + Math.floor(event.at * duration + 0.5));
        return (this.noticedAt(event, due, takes.length, start) - start) / duration;
      },
      (fraction) => start + Math.floor(fraction * duration + 0.5),
    );
    const isWhole = outcome.stoppedBy === null;
    const end = start + Math.floor(outcome.done * duration + 0.5);
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
    at.scanned();
    at.worklist.took(due);
    this.last = due;
    this.takesSinceCheck(mounted).push(take);
    at.showTip();
    return { take, seen: outcome.stoppedBy };
  }

  /** Tells the recorder, where there is one, of what happens to the tip during a scan, noticed or not. */
  private tellOf(event: TipEvent, time: number): void {
    const { floor, station } = this.at;
    floor.recorder?.event(time, station.number, event.cause, `${this.at.label()}, in mid-scan`);
  }

  /** When an event during a scan is noticed; Infinity if it is not. */
  private noticedAt(event: TipEvent, due: ImageModel, running: number, start: number): number {
    const { model, floor } = this.at;
    const { watch } = model.settings.noticing;
    if (watch === undefined || !watch.causes.includes(event.cause)) return Infinity;
    const u = floor.luck.uniform(PURPOSES.watch, 0, 0, due.drawn, running * EVENTS_PER_TAKE + event.ordinal);
    if (u >= watch.sensitivity) return Infinity;
    const { duration } = due.pass;
    const time = start + Math.floor(event.at * duration + 0.5) + microseconds(watch.delay);
    const isStillThere = time < start + duration && time < start + event.clearsAt * duration;
    const isSeen = watch.by === 'automatic' || model.presence.isOpen(time);
    return isStillThere && isSeen ? time : Infinity;
  }

  /** Reviews a finished scan: at once, or by the operator on return. */
  private *review(take: Take): Process {
    const { at } = this;
    const { station, floor, model } = at;
    const { review } = model.settings.noticing;
    if (review.by === 'nobody') return;
    if (review.by === 'operator' && !(floor.hasFreeOperator && model.bookings.isOpen(station.now))) {
      station.desk.put(take, (late) => {
        this.judgeLate(late);
      });
      return;
    }
    const need = station.needOf('review', review.by === 'operator', 'measuring');
    const claim = station.claim(need, 0);
    const hands = claim === 'not yet' ? yield* station.ready(need, 0) : claim === 'hands';
    const start = station.begin();
    if (floor.sim.sleepUntil(start + microseconds(review.time), RANK.stepEnd)) yield;
    station.end('review', 'reviewing', start, hands, null);
    if (this.isFlaggedByReview(take)) this.flag(take);
  }

  private isFlaggedByReview(take: Take): boolean {
    const { sensitivity, falseAlarm } = this.at.model.settings.noticing.review;
    const u = this.at.floor.luck.uniform(PURPOSES.review, 0, 0, take.image.drawn, take.running);
    return u < (isGood(take.image.pass.demand, take.quality) ? falseAlarm : sensitivity);
  }

  /** A take is flagged: its image is taken again, and the tip that is on is judged. */
  private flag(take: Take): void {
    this.disown(take);
    if (this.at.mounted !== null) this.at.mounted.judgement = 'flagged by an image';
  }

  private disown(take: Take): void {
    take.flaggedAt = this.at.station.now;
    this.at.station.note('flagged', `take ${take.running + 1} of image ${take.image.number + 1}`);
    // A take made since, which nobody has flagged, is kept in its place.
    const kept = this.at.ledger.kept(take.image);
    if (kept === null || kept.running < take.running) this.retake(take.image);
  }

  /** A late review judges the tip only if it is still on and has neither been cleaned nor passed a check since. */
  private judgeLate(take: Take): void {
    if (take.voidAt !== null) return;
    const { mounted } = this.at;
    const isUntouched =
      mounted !== null && mounted.tip === take.tip && mounted.cleanedAt < take.end && mounted.passedAt < take.end;
    if (!this.isFlaggedByReview(take)) {
      if (isUntouched) mounted.trusted();
      return;
    }
    this.disown(take);
    if (isUntouched && mounted.judgement === 'sound') mounted.judgement = 'flagged by an image';
  }

  private retake(image: ImageModel): void {
    const { ledger, model, worklist, region } = this.at;
    if (ledger.attempts(image) < model.settings.noticing.attempts) worklist.retake(image, image.region === region);
  }

  /** Checks the tip on a reference structure, for the image that comes next. */
  private *check(mounted: MountedTip, next: ImageModel): Process {
    const { at } = this;
    const { tip } = mounted;
    const { check } = at.model.settings.noticing;
    if (check === undefined) return;
    yield* at.step('check', 'measuring');
    const count = tip.checks;
    tip.checks += 1;
    tip.scansSinceCheck = 0;
    mounted.isUnchecked = false;
    const judged = next.pass.kind === tip.kind.index ? next : (this.last ?? next);
    const isSound = isGood(judged.pass.demand, startingQuality(judged.pass.demand, tip));
    const isFailed = tip.draw(PURPOSES.checkJudgement, count) < (isSound ? check.falseAlarm : check.sensitivity);
    mounted.radiusRead = tip.radius * (1 + check.radiusError * normalQuantile(tip.draw(PURPOSES.checkReading, count)));
    if (isFailed) {
      mounted.judgement = 'failed a check';
      at.station.note('failed a check', at.label());
      if (check.repeatSuspects) this.suspect(mounted);
    } else {
      mounted.judgement = 'sound';
      mounted.trusted();
      mounted.passedAt = at.station.now;
      this.unconfirmed.delete(mounted);
    }
  }

  /** Images whose kept take is by this tip and later than its last passed check are taken again. */
  private suspect(mounted: MountedTip): void {
    const takes = this.takesSinceCheck(mounted);
    for (const take of takes) if (this.at.ledger.kept(take.image) === take) this.retake(take.image);
  }

  private takesSinceCheck(mounted: MountedTip): Take[] {
    const takes = this.unconfirmed.get(mounted) ?? [];
    this.unconfirmed.set(mounted, takes);
    return takes;
  }
}
