import { type Luck, type Purpose, PURPOSES } from '../chance/luck.js';
import { type Lognormal, lognormalScore } from '../chance/scores.js';
import { cubeRoot } from './blunting.js';
import type { ScanLoad } from './scan-load.js';
import { type Cause, declaredOf, type LeftState } from './causes.js';
import { HazardState } from './hazard-state.js';
import type { KindModel } from './kind-model.js';
import type { ScanOutcome, ScanWatch } from './scan-watch.js';
import { NEW, type Spoiling, type SpoiledBy, type TipState, type Use, useAfter } from './tip-state.js';

export type { SpoiledBy, Spoiling, Use } from './tip-state.js';

/** More kinds than any scenario has; kind and hazard share one index of a draw. */
const KINDS = 64;

/**
 * Events in one scan or approach after which no more come in it. Scenarios may expect half as many; a hazard that is drawn far
 * from its value may come to more than a campaign ever ends with.
 */
const MOST_EVENTS = 2000;

/**
 * One tip. Its luck is fixed before anyone decides how to use it: every draw is a function of (instrument, kind, number
 * of the tip, hazard, event). Lengths in nanometres, path in millimetres.
 */
export class Tip {
  readonly use: Use = { images: 0.5, path: 0.5, hours: 0.5, approaches: 0 };
  /** The first thing that spoiled it. */
  spoiled: Spoiling | null = null;
  broken = false;
  uncoated = false;
  /** Its apex radius let an image fall below accept. */
  isBlunt = false;
  /** Its apex radius has jumped since the apex was made. */
  isChipped = false;
  /** Apex radius now, in nanometres. */
  radius = 0.5;
  /** Scans finished since the last check, or since new. */
  scansSinceCheck = 0;
  checks = 0;
  cleanings = 0;
  reconditionings = 0;

  #middleRadius = 0.5;

  /** Product of the factors of all marks on the tip. */
  private stateQuality = 1;
  private cube = 0.5;
  private wear = 0.5;
  private instrument = 0;
  #luck: Luck;
  /** Fraction of the running scan at which the event comes that was found to be the next one. */
  #nextAt = Infinity;
  private readonly hazards: readonly HazardState[];
  readonly #outcome: ScanOutcome = { state: 0.5, radius: 0.5, done: 0.5, stoppedBy: null };

  /** In order of first mounting, per instrument and kind, from 0. */
  number = 0;

  constructor(
    readonly kind: KindModel,
    number: number,
    instrument: number,
    luck: Luck,
    /** How it already is; null: it is new. */
    from: TipState | null = null,
  ) {
    this.#luck = luck;
    this.hazards = kind.hazards.map((spec, index) => new HazardState(spec, this, index));
    this.renew(number, instrument, luck, from);
  }

  /** From now on it is another tip of its kind. */
  renew(number: number, instrument: number, luck: Luck, from: TipState | null): void {
    this.number = number;
    this.instrument = instrument;
    this.#luck = luck;
    const { kind } = this;
    this.setRadius(from?.radius ?? this.drawFrom(this.kind.radius, PURPOSES.radius, 0));
    if (from !== null) this.cube = from.cube;
    if (kind.blunting === null) this.wear = 0;
    else this.wear = from?.wear ?? this.drawFrom(kind.wear, PURPOSES.wear, 0);
    for (let i = 0; i < this.hazards.length; i += 1) this.hazards[i].renew(from?.hazards[i] ?? null);
    this.takeOn(from ?? NEW);
  }

  /** How it is now, between scans. */
  get state(): TipState {
    const { spoiled, broken, uncoated, isBlunt, isChipped } = this;
    const { scansSinceCheck, checks, cleanings, reconditionings, radius, cube, wear } = this;
    return {
      use: { ...this.use },
      ...{ spoiled, broken, uncoated, isBlunt, isChipped },
      ...{ scansSinceCheck, checks, cleanings, reconditionings, radius, cube, wear },
      hazards: this.hazards.map(({ progress }) => progress),
    };
  }

  /** Apex radius (nm) in the middle of the last scan in which nothing happened. */
  get middleRadius(): number {
    return this.#middleRadius;
  }

  /** What the state leaves of the quality of an image that starts now. */
  stateNow(electrical: boolean): number {
    return this.broken || (electrical && this.uncoated) ? 0 : this.stateQuality;
  }

  /** What events have left on it that neither broke nor uncoated it; what may clear again comes first. */
  get mark(): LeftState | null {
    const left = this.hazards.flatMap(({ marked, spec: { cause, effect } }) =>
      marked && !effect.breaks && !effect.uncoats ? [declaredOf(cause)] : [],
    );
    return (left.find(({ effect }) => effect.clears) ?? left.at(0))?.leaves ?? null;
  }

  /** One approach for a scan to come: exposes the tip by one unit, at its end (`time`, microseconds). */
  approach(scan: ScanLoad, time: number): void {
    this.use.approaches += 1;
    for (const hazard of this.hazards) {
      if (hazard.spec.per !== 'approach' || hazard.marked) continue;
      hazard.approach(scan.pass);
      let left = MOST_EVENTS;
      while (left > 0 && hazard.isDue && this.strike(hazard, time, this.use)) left -= 1;
    }
  }

  /** Scans, event by event; what it gives holds until the next scan. */
  scan(scan: ScanLoad, electrical: boolean, watch: ScanWatch): Readonly<ScanOutcome> {
    if (!this.scanQuietly(scan)) return this.scanByEvents(scan, electrical, watch);
    const outcome = this.#outcome;
    outcome.radius = this.#middleRadius;
    outcome.state = this.stateNow(electrical);
    outcome.done = 1;
    outcome.stoppedBy = null;
    return outcome;
  }

  /** Goes through a whole scan of a pass in which nothing happens to it; false, and nothing done, where something does. */
  scanQuietly(scan: ScanLoad): boolean {
    const { hazards, use } = this;
    const { pass } = scan;
    // By place, and with no call, as nearly every scan passes here.
    for (let i = 0; i < hazards.length; i += 1) {
      const { marked, spec, threshold, exposure, clearsIn } = hazards[i];
      if (marked) {
        if (spec.effect.clears && clearsIn < 1) return false;
      } else if (!spec.isPerApproach && Math.max(0, threshold - exposure) * spec.scans[pass] < 1) return false;
    }
    for (let i = 0; i < hazards.length; i += 1) {
      const hazard = hazards[i];
      if (hazard.marked) hazard.clearsIn -= 1;
      else if (!hazard.spec.isPerApproach) hazard.exposure += hazard.spec.exposure[pass];
    }
    if (this.wear === 0) this.#middleRadius = this.radius;
    else {
      this.blunt(scan, 0.5);
      this.#middleRadius = this.radius;
      this.blunt(scan, 0.5);
    }
    use.images += 1;
    use.path += scan.path;
    use.hours += scan.scanTime / 3600;
    return true;
  }

  private addUse(scan: ScanLoad, done: number): void {
    const { use } = this;
    use.images += done;
    use.path += scan.path * done;
    use.hours += (scan.scanTime * done) / 3600;
  }

  private scanByEvents(scan: ScanLoad, electrical: boolean, watch: ScanWatch): Readonly<ScanOutcome> {
    let done = 1;
    let stoppedBy: Cause | null = null;
    let state = 0;
    let last = 0;
    let bluntedTo = 0;
    let middle = 0;
    let ordinal = 0;
    for (;;) {
      const next = this.nextEvent(scan.pass);
      const at = this.#nextAt;
      if (middle === 0 && at > 0.5 && done >= 0.5) {
        this.blunt(scan, 0.5 - bluntedTo);
        bluntedTo = 0.5;
        middle = this.radius;
      }
      if (next === null || at >= done || ordinal === MOST_EVENTS) break;
      state += this.stateNow(electrical) * (at - last);
      last = at;
      this.blunt(scan, at - bluntedTo);
      bluntedTo = at;
      next.carry(at, scan.pass);
      if (next.spec.effect.clears && next.marked) {
        this.clear(next);
      } else {
        this.strike(next, watch.timeAt(at), useAfter(this.use, scan, at));
        const stop = watch.stopsAt({ cause: next.spec.cause, at, clearsAt: next.clearsAt, ordinal });
        if (stop < done) {
          done = stop;
          stoppedBy = next.spec.cause;
        }
        ordinal += 1;
      }
    }
    state += this.stateNow(electrical) * (done - last);
    this.blunt(scan, done - bluntedTo);
    for (const hazard of this.hazards) hazard.endScan(done, scan.pass);
    this.addUse(scan, done);
    const outcome = this.#outcome;
    outcome.state = state;
    outcome.radius = middle;
    outcome.done = done;
    outcome.stoppedBy = stoppedBy;
    return outcome;
  }

  /** Cleaning clears all fouling and touches nothing else. */
  clean(): void {
    for (const hazard of this.hazards) if (hazard.spec.effect.clears && hazard.marked) this.clear(hazard);
  }

  /** Reconditioning made a new apex: the radius is drawn afresh, chips, fouling and whatever goes with the apex are gone. */
  renewApex(count: number): void {
    this.setRadius(this.drawFrom(this.kind.radius, PURPOSES.newApex, count));
    this.isBlunt = false;
    this.isChipped = false;
    for (const hazard of this.hazards)
      if (hazard.marked && declaredOf(hazard.spec.cause).goesWithApex === true) this.clear(hazard);
    this.clean();
  }

  break(cause: SpoiledBy, time: number): void {
    this.broken = true;
    this.markSpoiled(cause, time);
  }

  /** Notes the first thing that spoiled the tip; later ones change nothing. */
  markSpoiled(cause: SpoiledBy, time: number, use: Readonly<Use> = this.use): void {
    this.spoiled ??= { cause, time, use: { ...use } };
  }

  private takeOn(from: Omit<TipState, 'radius' | 'cube' | 'wear' | 'hazards'>): void {
    const { use } = this;
    use.images = from.use.images;
    use.path = from.use.path;
    use.hours = from.use.hours;
    use.approaches = from.use.approaches;
    this.spoiled = from.spoiled;
    this.broken = from.broken;
    this.uncoated = from.uncoated;
    this.isBlunt = from.isBlunt;
    this.isChipped = from.isChipped;
    this.scansSinceCheck = from.scansSinceCheck;
    this.checks = from.checks;
    this.cleanings = from.cleanings;
    this.reconditionings = from.reconditionings;
    this.stateQuality = this.qualityOfMarks();
  }

  /** A uniform of this tip for a purpose; `index` numbers the draws of that purpose, within a hazard where it is for one. */
  draw(purpose: Purpose, index: number, hazard = 0): number {
    return this.#luck.uniform(purpose, this.instrument, hazard * KINDS + this.kind.index, this.number, index);
  }

  /** The hazard whose next event comes first in the running scan, or null; `#nextAt` says at which fraction. */
  private nextEvent(pass: number): HazardState | null {
    let first: HazardState | null = null;
    this.#nextAt = Infinity;
    for (const hazard of this.hazards) {
      const at = hazard.fractionOfNext(pass);
      if (at < this.#nextAt) {
        this.#nextAt = at;
        first = hazard;
      }
    }
    return first;
  }

  /** The event of a hazard comes. Whether more may come of it by exposure. */
  private strike(hazard: HazardState, time: number, use: Readonly<Use>): boolean {
    const { effect, quality, radiusFactor } = hazard.spec;
    const event = hazard.strike();
    this.markSpoiled(hazard.spec.cause, time, use);
    if (effect.breaks) this.broken = true;
    if (effect.uncoats) this.uncoated = true;
    if (effect.chips) {
      this.isChipped = true;
      this.setRadius(this.radius * lognormalScore(radiusFactor, hazard.draw(PURPOSES.chipFactor, event)));
      hazard.runOn();
      return true;
    }
    hazard.mark(event);
    this.stateQuality *= quality;
    return false;
  }

  /** Fouling is gone. */
  private clear(hazard: HazardState): void {
    hazard.clear();
    // Multiplied anew rather than divided back, so that a cleared tip is exactly as good as before, also after quality 0.
    this.stateQuality = this.qualityOfMarks();
  }

  private qualityOfMarks(): number {
    return this.hazards.reduce((product, { marked, spec }) => (marked ? product * spec.quality : product), 1);
  }

  private blunt(scan: ScanLoad, fraction: number): void {
    if (this.wear === 0 || fraction <= 0 || this.kind.blunting === null) return;
    this.cube += this.kind.blunting.growth(this.wear, scan.load, scan.path * fraction);
    this.radius = cubeRoot(this.cube);
  }

  private setRadius(radius: number): void {
    this.radius = radius;
    this.cube = radius * radius * radius;
  }

  private drawFrom(distribution: Lognormal, purpose: Purpose, index: number): number {
    return distribution.sigma === 0 ? distribution.median : lognormalScore(distribution, this.draw(purpose, index));
  }
}
