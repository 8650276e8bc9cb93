import { imageQuality, isGood } from '../probe/image.js';
import type { ScanWatch, TipEvent } from '../probe/tip.js';
import type { Cause } from '../scenario/schema/scenario.js';
import { ACTIVITY_NUMBER } from './activities.js';
import type { Instrument } from './instrument.js';
import type { Take } from './ledger.js';
import type { ImageModel } from './model.js';
import type { Noticing } from './noticing.js';
import { RANK } from './ranks.js';
import type { MountedTip } from './replacing.js';

const SCANNING = ACTIVITY_NUMBER['scanning kept'];

/** The scan that runs at one instrument: tells the tip the clock, and whether what happens to it is noticed. Times in microseconds. */
export class Scan implements ScanWatch {
  start = 0;
  /** What was seen to happen to the tip, if that stops the scan. */
  stoppedBy: Cause | null = null;
  private due: ImageModel | null = null;
  private duration = 0;
  private take: Take | null = null;

  constructor(
    private readonly at: Instrument,
    private readonly noticing: Noticing,
  ) {}

  /** Begins a scan; how it will go for the tip is known at once, and one that will be stopped is interrupted then. */
  begin(due: ImageModel, { tip }: MountedTip): void {
    const { station, ledger } = this.at;
    const { sim } = station;
    const { demand, duration } = due.pass;
    this.start = station.begin();
    this.due = due;
    this.duration = duration;
    const { radius, state, done, stoppedBy } = tip.scan(due.pass, demand.electrical, this);
    this.stoppedBy = stoppedBy;
    const end = this.timeAt(done);
    const drift = station.driftOver(this.start, this.start + duration, demand.pass.driftTolerance);
    const undrifted = stoppedBy === null ? imageQuality(demand, radius, state) : 0;
    const quality = undrifted * drift.quality;
    const good = isGood(demand, quality);

    const previous = ledger.last(due);
    const running = previous === null ? 0 : previous.running + 1;
    this.take = {
      image: due,
      running,
      previous,
      tip,
      start: this.start,
      end,
      quality,
      good,
      drift,
      flaggedAt: null,
      flaggedFrom: null,
      voidAt: null,
      voidFrom: null,
    };
    if (stoppedBy !== null) {
      sim.interruptAt(sim.active, end, RANK.noticing, stoppedBy);
      return;
    }
    tip.scansSinceCheck += 1;
    // The apex is to blame only where a perfectly sharp one would have given a good image.
    if (!isGood(demand, undrifted) && state === 1 && isGood(demand, imageQuality(demand, 0, 1))) {
      tip.isBlunt = true;
      tip.markSpoiled('blunting', end);
    }
  }

  /** The scan has ended, whole or not; gives the take. */
  end(): Take {
    const { at, due, take } = this;
    if (due === null || take === null) throw new Error('No scan is running.');
    at.station.end(at.steps.scan, SCANNING, this.start, false, take);
    at.ledger.add(take);
    at.tips.scanned();
    at.worklist.took(due);
    this.noticing.taken(take);
    at.tips.showTip();
    return take;
  }

  timeAt(fraction: number): number {
    return this.start + Math.floor(fraction * this.duration + 0.5);
  }

  stopsAt(event: TipEvent): number {
    const { at, due, duration, start } = this;
    if (due === null) return Infinity;
    const { floor, number } = at.station;
    const moment = this.timeAt(event.at);
    floor.recorder?.event(moment, number, event.cause, `${at.tips.label()}, in mid-scan`);
    return (this.noticing.noticedAt(event, moment, due, at.ledger.count(due), start) - start) / duration;
  }
}
