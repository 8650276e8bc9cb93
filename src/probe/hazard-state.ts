import { log1p } from '../chance/elementary.js';
import { type Purpose, PURPOSES } from '../chance/luck.js';
import type { CompiledHazard } from './hazards.js';
import type { HazardProgress } from './tip-state.js';

/** One hazard of one tip: how far it has come, and when its next event is due. */
export class HazardState {
  /** The mark of an event is on the tip: for good, or until a fouled tip clears. A chip leaves none, so chipping runs on. */
  marked = false;
  private exposure = 0;
  /** Exposure at which the next event comes. */
  private threshold: number;
  /** Cumulative hazard drawn so far: E₁, or E₁ + E₂ + … once it runs on. */
  private drawn: number;
  /** Events so far; numbers the draws. */
  private events = 0;
  /** Images until a fouled tip clears by itself. */
  private clearsIn = Infinity;
  /** Fraction of the running scan up to which this hazard has been carried. */
  private carried = 0;

  constructor(
    readonly spec: CompiledHazard,
    /** A uniform of this hazard of the tip for a purpose; `event` numbers the draws of that purpose. */
    readonly draw: (purpose: Purpose, event: number) => number,
    from: HazardProgress | null = null,
  ) {
    this.drawn = from === null ? this.unitExponential() : from.drawn;
    this.threshold = spec.life.exposureAt(this.drawn);
    if (from === null) return;
    this.marked = from.marked;
    this.exposure = from.exposure;
    this.events = from.events;
    this.clearsIn = from.clearsIn ?? Infinity;
  }

  /** How far it has come, between scans. */
  get progress(): HazardProgress {
    const { marked, exposure, drawn, events, clearsIn } = this;
    return { marked, exposure, drawn, events, clearsIn: clearsIn === Infinity ? null : clearsIn };
  }

  /** One approach for a scan of the pass. */
  approach(pass: number): void {
    this.exposure += this.spec.exposure[pass];
  }

  /** Whether exposure has reached the next event. */
  get isDue(): boolean {
    return this.exposure >= this.threshold;
  }

  /** Fraction of the running scan at which the next event, or a fouled tip's clearing, comes. */
  fractionOfNext(pass: number): number {
    if (this.marked) return this.spec.effect.clears ? this.carried + this.clearsIn : Infinity;
    if (this.spec.per === 'approach') return Infinity;
    return this.carried + Math.max(0, this.threshold - this.exposure) / this.spec.exposure[pass];
  }

  /** Carries it to a fraction of the running scan. */
  carry(to: number, pass: number): void {
    const fraction = to - this.carried;
    this.carried = to;
    if (this.marked) this.clearsIn -= fraction;
    else if (this.spec.per !== 'approach') this.exposure += this.spec.exposure[pass] * fraction;
  }

  /** The scan ends at a fraction of its time. */
  endScan(at: number, pass: number): void {
    this.carry(at, pass);
    this.carried = 0;
  }

  /** Fraction of the running scan at which the mark that was just made will have cleared; Infinity for what does not clear in sight. */
  get clearsAt(): number {
    return this.marked ? this.carried + this.clearsIn : Infinity;
  }

  /** Its event comes. Gives its number, from 0. */
  strike(): number {
    this.events += 1;
    return this.events - 1;
  }

  /** After an event that leaves no mark: it runs on with more exposure. */
  runOn(): void {
    this.drawn += this.unitExponential();
    this.threshold = this.spec.life.exposureAt(this.drawn);
  }

  /** The event with this number leaves its mark. */
  mark(event: number): void {
    const { effect, clears } = this.spec;
    this.marked = true;
    if (effect.clears)
      this.clearsIn = clears === Infinity ? Infinity : -clears * log1p(-this.draw(PURPOSES.clearing, event));
  }

  /** Its mark is gone: exposure restarts, and the next unit exponential counts. */
  clear(): void {
    this.marked = false;
    this.exposure = 0;
    this.drawn = this.unitExponential();
    this.threshold = this.spec.life.exposureAt(this.drawn);
  }

  /** The unit exponential that the next event waits for, by one uniform. */
  private unitExponential(): number {
    return -log1p(-this.draw(PURPOSES.life, this.events));
  }
}
