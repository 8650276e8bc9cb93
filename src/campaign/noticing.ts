import { PURPOSES } from '../chance/luck.js';
import { normalScore } from '../chance/scores.js';
import { microseconds } from '../kernel/clock.js';
import { isGood, startingQuality } from '../probe/image.js';
import type { TipEvent } from '../probe/scan-watch.js';
import type { Scenario } from '../scenario/schema/scenario.js';
import type { Instrument } from './instrument.js';
import { isSpoiledByDrift, type Take } from './ledger.js';
import type { ImageModel } from './model.js';
import type { MountedTip } from './replacing.js';
import type { TakeName } from './state.js';

type Check = NonNullable<Scenario['noticing']['check']>;

/** What is noticed of scans, images and tips at one instrument, by watching, reviews and checks, and what follows from it. */
export class Noticing {
  private readonly reviewing: Scenario['noticing']['review'];
  /** The image taken last. */
  last: ImageModel | null = null;

  constructor(private readonly at: Instrument) {
    const { from, tips, ledger, model } = at;
    this.reviewing = model.settings.noticing.review;
    if (from === null) return;
    this.last = from.last === null ? null : model.images[from.last];
    for (const state of [from.tips.mounted, ...from.tips.parked]) {
      const mounted = state === null ? null : tips.find(state);
      if (state !== null && mounted !== null) mounted.unconfirmed = state.unconfirmed.map((name) => ledger.take(name));
    }
  }

  /** Number of the image taken last; null before the first. */
  get lastImage(): number | null {
    return this.last?.number ?? null;
  }

  /** A check is due on the tip that is on, and has not been made. */
  get isCheckPending(): boolean {
    const { model, ledger, tips } = this.at;
    const { check } = model.settings.noticing;
    const { mounted } = tips;
    if (check === undefined || mounted === null || this.last === null) return false;
    const take = ledger.last(this.last);
    return take?.tip === mounted.tip && take.flaggedAt === null && mounted.tip.scansSinceCheck >= check.every;
  }

  /** Takes of absent hours that waited for review when the campaign was taken up wait again. */
  takeUp(unreviewed: readonly TakeName[]): void {
    for (const name of unreviewed) this.leaveForLater(this.at.ledger.take(name));
  }

  /** A take has been made. */
  taken(take: Take): void {
    this.last = take.image;
    this.at.tips.mounted?.unconfirmed.push(take);
  }

  /** When an event that comes at `moment`, during a scan from `start`, is noticed; Infinity if it is not. */
  noticedAt(event: TipEvent, moment: number, due: ImageModel, running: number, start: number): number {
    const { model, context } = this.at;
    const { watch } = model.settings.noticing;
    if (watch === undefined || !watch.causes.includes(event.cause)) return Infinity;
    const u = context.luck.uniform(PURPOSES.watch, 0, event.ordinal, due.drawn, running);
    if (u >= watch.sensitivity) return Infinity;
    const { duration } = due.pass;
    const time = moment + microseconds(watch.delay);
    const isStillThere = time < start + duration && time < start + event.clearsAt * duration;
    const isSeen = watch.by === 'automatic' || model.presence.isOpen(time);
    return isStillThere && isSeen ? time : Infinity;
  }

  /** A review has ended. */
  reviewed(take: Take): void {
    if (this.isFlaggedByReview(take)) this.flag(take, this.at.scheduler.begunAt);
  }

  leaveForLater(take: Take): void {
    this.at.scheduler.calmUntil = 0;
    this.at.scheduler.reviews.put(take, (late, since) => {
      this.judgeLate(late, since);
    });
  }

  isFlaggedByReview(take: Take): boolean {
    const { sensitivity, falseAlarm } = this.reviewing;
    const { luck } = this.at.context;
    luck.draw(PURPOSES.review, 0, 0, take.image.drawn, take.running);
    return luck.drawn[0] < (take.good ? falseAlarm : sensitivity);
  }

  /** A take is flagged, by a review or scan that began at `from`: its image is taken again, and the tip that is on is judged, unless drift alone spoiled it. */
  flag(take: Take, from: number): void {
    this.disown(take, from);
    if (this.at.tips.mounted !== null && !isSpoiledByDrift(take))
      this.at.tips.mounted.judgement = 'flagged by an image';
  }

  private disown(take: Take, from: number): void {
    take.flaggedAt = this.at.scheduler.now;
    take.flaggedFrom = from;
    if (this.at.context.recorder !== null)
      this.at.scheduler.note('flagged', () => `take ${take.running + 1} of image ${take.image.number + 1}`);
    // A take made since, which nobody has flagged, is kept in its place.
    const kept = this.at.ledger.kept(take.image);
    if (kept === null || kept.running < take.running) this.retake(take.image);
  }

  /** A late review judges the tip only if it is still on and has not been cleaned, parked or passed by a check since. */
  private judgeLate(take: Take, since: number): void {
    if (take.voidAt !== null) return;
    const { mounted } = this.at.tips;
    const isUntouched =
      mounted !== null && mounted.tip === take.tip && mounted.clearedAt < take.end && mounted.passedAt < take.end;
    if (!this.isFlaggedByReview(take)) {
      if (isUntouched) mounted.trusted();
      return;
    }
    this.disown(take, since);
    if (isUntouched && !isSpoiledByDrift(take) && mounted.judgement === 'sound')
      mounted.judgement = 'flagged by an image';
  }

  private retake(image: ImageModel): void {
    const { worklist, region } = this.at;
    if (this.mayRetake(image)) worklist.retake(image, image.region === region);
  }

  /** It has attempts left, and can be taken again. */
  private mayRetake(image: ImageModel): boolean {
    const { ledger, model, worklist } = this.at;
    return ledger.attempts(image) < model.settings.noticing.attempts && worklist.accepts(image);
  }

  /** The tip that is on has been checked on a reference structure, for the image that comes next. */
  checked(check: Check): void {
    const { at } = this;
    const { due: next, tips } = at;
    const { mounted } = tips;
    if (mounted === null) return;
    const { tip } = mounted;
    const count = tip.checks;
    tip.checks += 1;
    tip.scansSinceCheck = 0;
    mounted.isUnchecked = false;
    const judged = next.pass.kind === tip.kind.index ? next : (this.last ?? next);
    const isSound = isGood(judged.pass.demand, startingQuality(judged.pass.demand, tip));
    const isFailed = tip.draw(PURPOSES.checkJudgement, count) < (isSound ? check.falseAlarm : check.sensitivity);
    const error = check.radiusError === 0 ? 0 : check.radiusError * normalScore(tip.draw(PURPOSES.checkReading, count));
    mounted.radiusRead = tip.radius * (1 + error);
    if (isFailed) {
      mounted.judgement = 'failed a check';
      at.scheduler.note('failed a check', () => at.tips.label());
      if (check.repeatSuspects) this.suspect(mounted);
    } else {
      mounted.judgement = 'sound';
      mounted.trusted();
      mounted.passedAt = at.scheduler.now;
      mounted.unconfirmed.length = 0;
    }
  }

  /** Images whose kept attempt is by this tip and later than its last passed check are taken again. */
  private suspect(mounted: MountedTip): void {
    const { ledger, context, scheduler } = this.at;
    const images = mounted.unconfirmed
      .filter((take) => ledger.kept(take.image) === take && this.mayRetake(take.image))
      .map(({ image }) => image);
    const { advisor } = context;
    const situation = { time: scheduler.now, instrument: scheduler.number, mounted, images };
    if (advisor === null || images.length === 0 || advisor.retakes(situation))
      for (const image of images) this.retake(image);
    else mounted.unconfirmed = [];
  }
}
