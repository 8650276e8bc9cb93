import { Tip } from '../probe/tip.js';
import type { WentBecause } from './ledger.js';
import type { ImageModel } from './model.js';
import { ExperimentOver } from './over.js';
import { mayReturn, MountedTip } from './replacing.js';
import type { MountedState, TipsState } from './state.js';
import type { Station } from './station.js';

/** Tips put on in a row without a scan, after which nobody believes that one will ever be fit for one. */
const FRUITLESS_MOUNTINGS = 100;

/** The tip that is on at one instrument, and those parked. */
export class TipHolder {
  mounted: MountedTip | null = null;

  /** In the order of parking. */
  private parked: MountedTip[] = [];
  /** New tips put on so far, by kind. */
  private readonly mountings: Map<number, number>;
  private mountingsSinceScan: number;

  constructor(
    private readonly station: Station,
    from: TipsState | null = null,
  ) {
    this.mountings = new Map(from?.mountings);
    this.mountingsSinceScan = from?.mountingsSinceScan ?? 0;
    if (from === null) return;
    const { luck, model } = station.floor;
    const recalled = (state: MountedState) =>
      MountedTip.from(state, new Tip(model.kinds[state.kind], state.number, station.number, luck, state.tip));
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
    const { now, number: instrument } = this.station;
    const { ledger, luck, model } = this.station.floor;
    this.mountingsSinceScan += 1;
    if (this.mountingsSinceScan > FRUITLESS_MOUNTINGS) throw new ExperimentOver('no tip is ever fit for a scan');
    if (parked === null) {
      const number = this.mountings.get(kind) ?? 0;
      this.mountings.set(kind, number + 1);
      ledger.tipsUsed.push(this.station.begunAt);
      const tip = new Tip(model.kinds[kind], number, instrument, luck);
      this.mounted = new MountedTip(tip, now, model.settings.noticing.check?.onNew ?? false);
    } else {
      this.parked = this.parked.filter((other) => other !== parked);
      this.mounted = parked;
    }
    this.station.note('mounted', () => `${this.label()}${parked === null ? '' : ' (parked before)'}`);
    this.showTip();
  }

  /** Takes the tip that is on off: parked if only another kind or an unused tip was needed, else it goes for good. */
  takeOff(why: WentBecause): void {
    const { mounted } = this;
    if (mounted === null) return;
    if (why === 'another kind was needed' || why === 'critical pass') {
      mounted.clearedAt = this.station.now;
      this.parked.push(mounted);
      this.station.note('parked', () => this.label());
    } else {
      this.discard(mounted, why);
    }
    this.mounted = null;
    this.showTip();
  }

  /** The parked tip to be used for an image: the one parked last of those that it accepts; null where there is none. */
  parkedFor(due: ImageModel): MountedTip | null {
    return this.parked.findLast((parked) => mayReturn(parked, due, this.station.floor.model)) ?? null;
  }

  /** All that are parked go. */
  discardParked(why: WentBecause): void {
    for (const parked of this.parked) this.discard(parked, why);
    this.parked = [];
  }

  /** The tip that was just mounted was broken by the exchange, and is found so. */
  spoilInHand(): void {
    const { mounted } = this;
    if (mounted === null) return;
    mounted.tip.break('mishandling', this.station.now);
    this.takeOff('mishandled');
  }

  /** A scan has been made. */
  scanned(): void {
    this.mountingsSinceScan = 0;
  }

  /** Tells the recorder, where there is one, how the tip is now. */
  showTip(): void {
    const { station } = this;
    const { recorder } = station.floor;
    if (recorder === null) return;
    station.tipOn = this.mounted?.tip ?? null;
    recorder.tip(station.now, station.number, station.tipOn);
  }

  /** The tip that is on, as people name it: kind and number from 1. */
  label(): string {
    return this.mounted === null ? 'no tip' : `${this.mounted.tip.kind.name} ${this.mounted.tip.number + 1}`;
  }

  /** The end: whatever is on or parked goes. */
  finish(): void {
    this.takeOff('end of the experiment');
    this.discardParked('end of the experiment');
  }

  private discard({ tip, mountedAt }: MountedTip, went: WentBecause): void {
    this.station.note('went', () => `${tip.kind.name} ${tip.number + 1}: ${went}`);
    this.station.floor.ledger.tips.push({
      instrument: this.station.number,
      kind: tip.kind.name,
      number: tip.number,
      use: { ...tip.use },
      spoiled: tip.spoiled,
      went,
      mounted: mountedAt,
    });
  }
}
