import { imageQuality } from '../probe/image.js';
import { ACTIVITY_NUMBER } from './activities.js';
import type { Take } from './ledger.js';
import type { ImageModel } from './model.js';
import { blameApex } from './scan.js';
import type { Workplace } from './workplace.js';

const SCANNING = ACTIVITY_NUMBER['scanning kept'];
const REVIEWING = ACTIVITY_NUMBER.reviewing;

/**
 * Takes of images one after the other at one region under one tip, each scanned and reviewed at one go: what `takeImage` says, for the
 * nine images in ten to whose tip nothing happens and in whose time nothing else can happen. Any other is left to the interpreter.
 */
export class Takes {
  private readonly isPossible: boolean;
  private readonly isReviewed: boolean;
  private readonly isByOperator: boolean;
  private readonly reviewTime: number;
  private readonly checkEvery: number;
  private readonly isRuledByUse: boolean;

  constructor(private readonly at: Workplace) {
    const { context, model } = at;
    const { noticing, rules } = model.settings;
    // Where somebody is told or asked, step by step.
    this.isPossible = context.recorder === null && context.advisor === null;
    this.isReviewed = noticing.review.by !== 'nobody';
    this.isByOperator = noticing.review.by === 'operator';
    this.reviewTime = this.isReviewed ? model.reviewTime : 0;
    this.checkEvery = noticing.check?.every ?? Infinity;
    this.isRuledByUse = rules.after !== undefined || rules.radiusAbove !== undefined;
  }

  /**
   * Whether any was made; what comes after the review of the last one is still to come.
   * @param stopsAt begins no other one at this moment (microseconds) or later
   */
  make(first: ImageModel, stopsAt: number): boolean {
    const { at, reviewTime, isReviewed, checkEvery } = this;
    const { scheduler, worklist, mounted, ledger, noticing } = at;
    const { timesheet, drifts, quietUntil } = scheduler;
    const { pool } = at.context;
    const { tip, unconfirmed } = mounted;
    const { lastTakes } = ledger;
    let now = scheduler.sim.now;
    if (!this.isPossible || timesheet.accountedTo !== now) return false;
    let due = first;
    let take: Take | null = null;
    let scanned = 0;
    let count = 0;
    // Written out in one piece and put down at its end, since a call and what it is given cost more than what is done.
    for (;;) {
      const { pass, number } = due;
      const { demand, duration } = pass;
      const end = now + duration;
      if (!(end + reviewTime < quietUntil) || !tip.scanQuietly(pass)) break;
      const state = tip.stateNow(demand.electrical);
      const undrifted =
        demand.needed === Infinity ? demand.tracking * state : imageQuality(demand, tip.middleRadius, state);
      take = pool.take(due, tip, lastTakes[number]);
      if (drifts) take.drift = scheduler.driftOver(now, end, demand.pass.driftTolerance);
      take.start = now;
      take.end = end;
      take.quality = drifts ? undrifted * take.drift.quality : undrifted;
      take.good = take.quality >= demand.accepted;
      if (undrifted < demand.accepted && state === 1) blameApex(demand, tip, end);
      lastTakes[number] = take;
      unconfirmed.push(take);
      worklist.took(due);
      count += 1;
      scanned += duration;
      tip.scansSinceCheck += 1;
      now = end + reviewTime;
      if (isReviewed && noticing.isFlaggedByReview(take)) {
        this.putDown(take, scanned, count, now);
        noticing.flag(take, end);
        return true;
      }
      if (tip.scansSinceCheck >= checkEvery || now >= stopsAt) break;
      const next = worklist.next();
      if (next?.region !== due.region || next.pass.kind !== pass.kind || next.pass.critical) break;
      if (this.isRuledByUse && at.remedyFor(next).what !== 'nothing') break;
      due = next;
    }
    if (take !== null) {
      this.putDown(take, scanned, count, now);
      mounted.trusted();
    }
    return take !== null;
  }

  /** So many takes have been made, of which this is the last. */
  private putDown(take: Take, scanned: number, count: number, now: number): void {
    const { at } = this;
    const { scheduler, scan } = at;
    const { cells, row } = scheduler.timesheet;
    const reviewed = count * this.reviewTime;
    cells[row + SCANNING] += scanned;
    cells[row + REVIEWING] += reviewed;
    if (this.isByOperator) scheduler.operatorTime += reviewed;
    at.due = scheduler.due = at.noticing.last = take.image;
    scan.take = take;
    scan.stoppedBy = null;
    at.tips.scanned();
    // All but the last, if that is flagged, were not.
    if (count > 1) at.mounted.trusted();
    scheduler.openings = 0;
    scheduler.passTo(now, this.isReviewed ? take.end : take.start);
  }
}
