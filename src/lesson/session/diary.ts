import { CAUSE_NAMES } from '../../probe/causes.js';
import type { CampaignModel } from '../../campaign/model.js';
import type { Take } from '../../campaign/ledger.js';
import type { RecordedStep, Recorder } from '../../campaign/recorder.js';
import type { Tip } from '../../probe/tip.js';
import { Chronicle, stateOf } from '../../analysis/timeline.js';
import type { TipLook } from '../surface/tip-look.js';

/** Something that a person at the instrument comes to know in an instant. Time in microseconds. */
export interface Told {
  readonly time: number;
  readonly what: string;
  readonly detail: string;
}

/** How a tip was while a scan ran. */
export interface ScanLook {
  readonly before: TipLook;
  readonly after: TipLook;
  /** Fraction of the scan time at which the one became the other. */
  readonly changesAt: number;
}

/** What happens to a tip unseen. */
const UNSEEN: ReadonlySet<string> = new Set(CAUSE_NAMES);
/** A change whose moment nobody tells, as when dirt comes off by itself, is taken to come in mid-image. */
const SOMEWHERE = 0.5;

/** Keeps what happens in one session, with what is hidden from the person at the instrument told apart. */
export class Diary implements Recorder {
  readonly chronicle: Chronicle;
  readonly steps: RecordedStep[] = [];
  readonly told: Told[] = [];
  readonly looks = new Map<Take, ScanLook>();
  /** By instrument: how the tip was when it was last shown, and when something last happened to it unseen. */
  private readonly looksNow = new Map<number, TipLook>();
  private readonly struckAt = new Map<number, number>();

  constructor(
    strategy: string,
    plan: Pick<CampaignModel, 'start' | 'samples' | 'drift'>,
    /** Half-angle of the cone (degrees) by place of the kind. */
    private readonly halfAngles: readonly number[],
  ) {
    this.chronicle = new Chronicle(strategy, plan);
  }

  step(record: RecordedStep): void {
    this.chronicle.step(record);
    this.steps.push(record);
    const { take, tip, instrument, start } = record;
    if (take === null || tip === null) return;
    const after = this.lookOf(tip);
    const before = this.looksNow.get(instrument) ?? after;
    const struck = this.struckAt.get(instrument) ?? -1;
    const { duration } = take.image.pass;
    this.looks.set(take, { before, after, changesAt: struck >= start ? (struck - start) / duration : SOMEWHERE });
  }

  event(time: number, instrument: number, what: string, detail: string): void {
    this.chronicle.event(time, instrument, what, detail);
    if (!UNSEEN.has(what)) this.told.push({ time, what, detail });
    else if ((this.struckAt.get(instrument) ?? -1) < time) this.struckAt.set(instrument, time);
  }

  tip(time: number, instrument: number, tip: Tip | null): void {
    this.chronicle.tip(time, instrument, tip);
    if (tip === null) this.looksNow.delete(instrument);
    else this.looksNow.set(instrument, this.lookOf(tip));
  }

  private lookOf(tip: Tip): TipLook {
    const { radius, kind, number } = tip;
    return { state: stateOf(tip), radius, halfAngle: this.halfAngles[kind.index], number };
  }
}
