import { Tip } from '../probe/tip.js';
import type { WentBecause } from './ledger.js';
import type { ImageModel } from './model.js';
import { ExperimentOver } from './over.js';
import { mayReturn, MountedTip } from './replacing.js';
import type { MountedState, TipsState } from './state.js';
import type { Scheduler } from './scheduler.js';

/** Tips put on in a row without a scan, after which nobody believes that one will ever be fit for one. */
const FRUITLESS_MOUNTINGS = 100;

/** The tip that is on at one instrument, and those parked. */
export class TipHolder {
  mounted: MountedTip | null = null;

  /** In the order of parking. */
  private parked: MountedTip[] = [];
  /** New tips put on so far, by kind. */
  private readonly mountings: Map<number, number>;
  mountingsSinceScan: number;

  constructor(
    private readonly scheduler: Scheduler,
    from: TipsState | null = null,
  ) {
    this.mountings = new Map(from?.mountings);
    this.mountingsSinceScan = from?.mountingsSinceScan ?? 0;
    if (from === null) return;
    const { luck, model } = scheduler.context;
    const recalled = (state: MountedState) =>
      MountedTip.from(state, new Tip(model.kinds[state.kind], state.number, scheduler.number, luck, state.tip));
    if (from.mounted !== null) this.mounted = recalled(from.mounted);
    this.parked = from.parked.map(recalled);
  }

  /** How it stands. */
  get state(): TipsState {
    return {
      mounted: this.mounted === null ? null : this.mounted.state,
      parked: this.parked.map(({ state }) => state),
      mountings: [...this.mountings],
      mountingsSinceScan: this.mountingsSinceScan,
    };
  }

  /** The tip of this kind and number that is on or parked; null where it is neither. */
  find({ kind, number }: { readonly kind: number; readonly number: number }): MountedTip | null {
    const held = [this.mounted, ...this.parked];
    return held.find((one) => one?.tip.kind.index === kind && one.tip.number === number) ?? null;
  }

  /**
   * Puts a tip on: a parked one, or a new one of the kind that the image needs.
   * @throws ExperimentOver where too many have been put on in a row without a scan
   */
  mount(due: ImageModel, parked: MountedTip | null): void {
    const { kind } = due.pass;
    const { now, number: instrument } = this.scheduler;
    const { ledger, luck, model, pool } = this.scheduler.context;
    this.mountingsSinceScan += 1;
    if (this.mountingsSinceScan > FRUITLESS_MOUNTINGS) throw new ExperimentOver('no tip is ever fit for a scan');
    if (parked === null) {
      const number = this.mountings.get(kind) ?? 0;
      this.mountings.set(kind, number + 1);
      ledger.tipsUsed.push(this.scheduler.begunAt);
      const checkNew = model.settings.noticing.check?.onNew ?? false;
      this.mounted = pool.tip(model.kinds[kind], number, instrument, luck, now, checkNew);
    } else {
      this.parked.splice(this.parked.indexOf(parked), 1);
      this.mounted = parked;
    }
    if (this.scheduler.isTold) this.tell('mounted', this.label() + (parked === null ? '' : ' (parked before)'));
    this.showTip();
  }

  /** Takes the tip that is on off: parked if only another kind or an unused tip was needed, else it goes for good. */
  takeOff(why: WentBecause): void {
    const { mounted } = this;
    if (mounted === null) return;
    if (why === 'another kind was needed' || why === 'critical pass') {
      mounted.clearedAt = this.scheduler.now;
      this.parked.push(mounted);
      if (this.scheduler.isTold) this.tell('parked', this.label());
    } else {
      this.discard(mounted, why);
    }
    this.mounted = null;
    this.showTip();
  }

  /** The parked tip to be used for an image: the one parked last of those that it accepts; null where there is none. */
  parkedFor(due: ImageModel): MountedTip | null {
    const { parked } = this;
    for (let i = parked.length - 1; i >= 0; i -= 1)
      if (mayReturn(parked[i], due, this.scheduler.context.model)) return parked[i];
    return null;
  }

  /** All that are parked go. */
  discardParked(why: WentBecause): void {
    const { parked } = this;
    for (const each of parked) this.discard(each, why);
    parked.length = 0;
  }

  /** The tip that was just mounted was broken by the exchange, and is found so. */
  spoilInHand(): void {
    const { mounted } = this;
    if (mounted === null) return;
    mounted.tip.break('mishandling', this.scheduler.now);
    this.takeOff('mishandled');
  }

  /** A scan has been made. */
  scanned(): void {
    this.mountingsSinceScan = 0;
  }

  /** Tells the recorder, where there is one, how the tip is now. */
  showTip(): void {
    const { scheduler } = this;
    const { recorder } = scheduler.context;
    if (recorder === null) return;
    scheduler.tipOn = this.mounted?.tip ?? null;
    recorder.tip(scheduler.now, scheduler.number, scheduler.tipOn);
  }

  /** The tip that is on, as people name it: kind and number from 1. */
  label(): string {
    return this.mounted === null ? 'no tip' : `${this.mounted.tip.kind.name} ${this.mounted.tip.number + 1}`;
  }

  private tell(what: string, detail: string): void {
    this.scheduler.note(what, () => detail);
  }

  /** The end: whatever is on or parked goes. */
  finish(): void {
    this.takeOff('end of the experiment');
    this.discardParked('end of the experiment');
  }

  private discard({ tip, mountedAt }: MountedTip, went: WentBecause): void {
    if (this.scheduler.isTold) this.tell('went', `${tip.kind.name} ${tip.number + 1}: ${went}`);
    this.scheduler.context.ledger.tips.push({
      instrument: this.scheduler.number,
      kind: tip.kind.name,
      number: tip.number,
      use: { ...tip.use },
      spoiled: tip.spoiled,
      went,
      mounted: mountedAt,
    });
  }
}
