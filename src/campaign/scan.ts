import { type ImageDemand, imageQuality, isGood } from '../probe/image.js';
import type { ScanWatch, TipEvent } from '../probe/scan-watch.js';
import type { Tip } from '../probe/tip.js';
import type { Cause } from '../scenario/schema/scenario.js';
import type { Instrument } from './instrument.js';
import type { Take } from './ledger.js';
import type { ImageModel } from './model.js';
import type { Noticing } from './noticing.js';
import { RANK } from './ranks.js';

/** An image came out bad on a tip that nothing marks: its apex is to blame only where a perfectly sharp one would have given a good one. */
export function blameApex(demand: ImageDemand, tip: Tip, time: number): void {
  if (!isGood(demand, imageQuality(demand, 0, 1))) return;
  tip.isBlunt = true;
  tip.markSpoiled('blunting', time);
}

/** The scan that runs at one instrument: tells the tip the clock, and whether what happens to it is noticed. Times in microseconds. */
export class Scan implements ScanWatch {
  start = 0;
  /** What was seen to happen to the tip, if that stops the scan. */
  stoppedBy: Cause | null = null;
  private due: ImageModel | null = null;
  private duration = 0;
  /** The attempt that is, or was last, made. */
  take: Take | null = null;

  constructor(
    private readonly at: Instrument,
    private readonly noticing: Noticing,
  ) {}

  /** Begins a scan; how it will go for the tip is known at once, and one that will be stopped is interrupted then. Gives its time. */
  begin(): number {
    const { context, scheduler, ledger, due } = this.at;
    const { tip } = this.at.mounted;
    const { sim } = scheduler;
    const { demand, duration } = due.pass;
    this.start = scheduler.now;
    this.due = due;
    this.duration = duration;
    const { radius, state, done, stoppedBy } = tip.scan(due.pass, demand.electrical, this);
    this.stoppedBy = stoppedBy;
    const end = this.timeAt(done);
    const drift = scheduler.driftOver(this.start, this.start + duration, demand.pass.driftTolerance);
    const undrifted = stoppedBy === null ? imageQuality(demand, radius, state) : 0;
    const quality = undrifted * drift.quality;
    const good = isGood(demand, quality);

    const take = context.pool.take(due, tip, ledger.last(due));
    take.start = this.start;
    take.end = end;
    take.quality = quality;
    take.good = good;
    take.drift = drift;
    this.take = take;
    if (stoppedBy !== null) {
      sim.interruptAt(sim.active, end, RANK.noticing, stoppedBy);
      return duration;
    }
    tip.scansSinceCheck += 1;
    if (!isGood(demand, undrifted) && state === 1) blameApex(demand, tip, end);
    return duration;
  }

  /** The scan has ended, whole or not. */
  ended(): void {
    const { at, take } = this;
    if (take === null) return;
    at.ledger.add(take);
    at.tips.scanned();
    at.worklist.took(take.image);
    this.noticing.taken(take);
    at.tips.showTip();
  }

  timeAt(fraction: number): number {
    return this.start + Math.floor(fraction * this.duration + 0.5);
  }

  stopsAt(event: TipEvent): number {
    const { at, due, duration, start } = this;
    if (due === null) return Infinity;
    const { context, number } = at.scheduler;
    const moment = this.timeAt(event.at);
    context.recorder?.event(moment, number, event.cause, `${at.tips.label()}, in mid-scan`);
    return (this.noticing.noticedAt(event, moment, due, at.ledger.count(due), start) - start) / duration;
  }
}
