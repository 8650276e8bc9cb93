import { type Purpose, PURPOSES } from '../chance/luck.js';
import { exponentialScore } from '../chance/scores.js';
import type { CompiledHazard } from './hazards.js';
import type { HazardProgress } from './tip-state.js';

/** Gives a uniform of a tip for a purpose; `index` numbers the draws of that purpose, within a hazard where it is for one. */
export interface DrawSource {
  draw(purpose: Purpose, index: number, hazard: number): number;
}

/** One hazard of one tip: how far it has come, and when its next event is due. */
export class HazardState {
  /** The mark of an event is on the tip: for good, or until a fouled tip clears. A chip leaves none, so chipping runs on. */
  marked = false;
  exposure = 0.5;
  /** Exposure at which the next event comes. */
  threshold = 0.5;
  /** Cumulative hazard drawn so far: E₁, or E₁ + E₂ + … once it runs on. */
  private drawn = 0.5;
  /** Events so far; numbers the draws. */
  private events = 0;
  /** Images until a fouled tip clears by itself. */
  clearsIn = Infinity;
  /** Fraction of the running scan up to which this hazard has been carried. */
  private carried = 0.5;

  /** Private to the language, so that what is told of a tip has no circles. */
  readonly #source: DrawSource;

  constructor(
    readonly spec: CompiledHazard,
    source: DrawSource,
    /** Its place among the hazards of the kind. */
    private readonly index: number,
  ) {
    this.#source = source;
  }

  /** That of another tip; `from` says how far it has come, null that it is new. */
  renew(from: HazardProgress | null): void {
    this.marked = from?.marked ?? false;
    this.exposure = from?.exposure ?? 0;
    this.events = from?.events ?? 0;
    this.clearsIn = from?.clearsIn ?? Infinity;
    this.carried = 0;
    this.drawn = from?.drawn ?? this.unitExponential();
    this.threshold = this.spec.life.exposureAt(this.drawn);
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
    if (this.spec.isPerApproach) return Infinity;
    return this.carried + Math.max(0, this.threshold - this.exposure) * this.spec.scans[pass];
  }

  /** Carries it to a fraction of the running scan. */
  carry(to: number, pass: number): void {
    const fraction = to - this.carried;
    this.carried = to;
    if (this.marked) this.clearsIn -= fraction;
    else if (!this.spec.isPerApproach) this.exposure += this.spec.exposure[pass] * fraction;
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
      this.clearsIn = clears === Infinity ? Infinity : clears * exponentialScore(this.draw(PURPOSES.clearing, event));
  }

  /** Its mark is gone: exposure restarts, and the next unit exponential counts. */
  clear(): void {
    this.marked = false;
    this.exposure = 0;
    this.drawn = this.unitExponential();
    this.threshold = this.spec.life.exposureAt(this.drawn);
  }

  /** A uniform of this hazard for a purpose; `event` numbers the draws of that purpose. */
  draw(purpose: Purpose, event: number): number {
    return this.#source.draw(purpose, event, this.index);
  }

  /** The unit exponential that the next event waits for, by one uniform. */
  private unitExponential(): number {
    return exponentialScore(this.draw(PURPOSES.life, this.events));
  }
}
