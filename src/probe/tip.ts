import { type Luck, type Purpose, PURPOSES } from '../chance/luck.js';
import { lognormalAt } from '../chance/normal.js';
import { type BluntingLaw, cubeRoot } from '../scenario/blunting.js';
import type { ScanLoad } from '../scenario/scan-load.js';
import type { Cause } from '../scenario/schema/scenario.js';
import { HazardState } from './hazard-state.js';
import type { CompiledHazard } from './hazards.js';
import type { Spoiling, SpoiledBy, TipState, Use } from './tip-state.js';

export type { SpoiledBy, Spoiling, Use } from './tip-state.js';

/** More kinds than any scenario has; kind and hazard share one index of a draw. */
const KINDS = 64;

/** A tip kind, ready for use. */
export interface KindModel {
  readonly name: string;
  readonly index: number;
  readonly radius: { readonly nominal: number; readonly spread: number };
  readonly blunting: BluntingLaw | null;
  readonly hazards: readonly CompiledHazard[];
}

/** An event of a hazard during a scan, as the tip feels it. */
export interface TipEvent {
  readonly cause: Cause;
  /** Fraction of the scan time at which it comes. */
  readonly at: number;
  /** Fraction at which it will have cleared; Infinity for what does not clear in sight. */
  readonly clearsAt: number;
  /** Its number within this scan, from 0. */
  readonly ordinal: number;
}

/** What a tip is told, and asks, while a scan runs. */
export interface ScanWatch {
  /** The clock (microseconds) at a fraction of the scan time. */
  timeAt(fraction: number): number;
  /** Fraction at which the scan stops because an event was noticed; Infinity: it was not. Asked once an event, as it comes. */
  stopsAt(event: TipEvent): number;
}

/** How a scan went for the tip. */
export interface ScanOutcome {
  /** Mean over the image of what the tip's state leaves of quality, in [0, 1]. */
  readonly state: number;
  /** Apex radius (nm) at mid-image. */
  readonly radius: number;
  /** Fraction of the scan done: 1 unless it was stopped. */
  readonly done: number;
  /** The cause of the event that was noticed and stopped the scan, or null. */
  readonly stoppedBy: Cause | null;
}

/**
 * One tip. Its luck is fixed before anyone decides how to use it: every draw is a function of (instrument, kind, number
 * of the tip, hazard, event). Lengths in nanometres, path in millimetres.
 */
export class Tip {
  readonly use: Use = { images: 0, path: 0, hours: 0, approaches: 0 };
  /** The first thing that spoiled it. */
  spoiled: Spoiling | null = null;
  broken = false;
  uncoated = false;
  /** Its apex radius let an image fall below accept. */
  isBlunt = false;
  /** Its apex radius has jumped since the apex was made. */
  isChipped = false;
  /** Scans finished since the last check, or since new. */
  scansSinceCheck = 0;
  checks = 0;
  cleanings = 0;
  reconditionings = 0;

  /** Product of the factors of all marks on the tip. */
  private stateQuality = 1;
  private cube: number;
  private cachedRadius: number;
  private readonly wear: number;
  /** Fraction of the running scan at which the event comes that was found to be the next one. */
  private nextAt = Infinity;
  private readonly hazards: readonly HazardState[];

  constructor(
    readonly kind: KindModel,
    /** In order of first mounting, per instrument and kind, from 0. */
    readonly number: number,
    private readonly instrument: number,
    private readonly luck: Luck,
    /** How it already is; null: it is new. */
    from: TipState | null = null,
  ) {
    this.cachedRadius = from?.radius ?? this.freshRadius(PURPOSES.radius, 0);
    this.cube = from?.cube ?? this.cachedRadius * this.cachedRadius * this.cachedRadius;
    const coefficient = kind.blunting?.coefficient;
    if (coefficient === undefined) this.wear = 0;
    else this.wear = from?.wear ?? lognormalAt(coefficient.median, coefficient.spread, this.draw(PURPOSES.wear, 0));
    this.hazards = kind.hazards.map((spec, index) => {
      const draw = (purpose: Purpose, event: number) => this.draw(purpose, event, index);
      return new HazardState(spec, draw, from?.hazards[index]);
    });
    if (from !== null) this.takeOn(from);
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

  /** Apex radius now, in nanometres. */
  get radius(): number {
    return this.cachedRadius;
  }

  /** What the state leaves of the quality of an image that starts now. */
  stateNow(electrical: boolean): number {
    return this.broken || (electrical && this.uncoated) ? 0 : this.stateQuality;
  }

  get fouled(): boolean {
    return this.hazards.some((hazard) => hazard.spec.effect.clears && hazard.marked);
  }

  get wornOut(): boolean {
    return this.hazards.some((hazard) => hazard.spec.cause === 'worn-out' && hazard.marked);
  }

  /** One approach for a scan to come: exposes the tip by one unit, at its end (`time`, microseconds). */
  approach(scan: ScanLoad, time: number): void {
    this.use.approaches += 1;
    for (const hazard of this.hazards) {
      if (hazard.spec.per !== 'approach' || hazard.marked) continue;
      hazard.approach(scan.pass);
      while (hazard.isDue && this.strike(hazard, time, this.use));
    }
  }

  /** Scans, event by event. */
  scan(scan: ScanLoad, electrical: boolean, watch: ScanWatch): ScanOutcome {
    let done = 1;
    let stoppedBy: Cause | null = null;
    let state = 0;
    let last = 0;
    let bluntedTo = 0;
    let middle = 0;
    let ordinal = 0;
    for (;;) {
      const next = this.nextEvent(scan.pass);
      const at = this.nextAt;
      if (middle === 0 && at > 0.5 && done >= 0.5) {
        this.blunt(scan, 0.5 - bluntedTo);
        bluntedTo = 0.5;
        middle = this.radius;
      }
      if (next === null || at >= done) break;
      state += this.stateNow(electrical) * (at - last);
      last = at;
      this.blunt(scan, at - bluntedTo);
      bluntedTo = at;
      next.carry(at, scan.pass);
      if (next.spec.effect.clears && next.marked) {
        this.clear(next);
      } else {
        this.strike(next, watch.timeAt(at), this.useAfter(scan, at));
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
    this.use.images += done;
    this.use.path += scan.path * done;
    this.use.hours += (scan.scanTime * done) / 3600;
    return { state, radius: middle, done, stoppedBy };
  }

  /** Cleaning clears all fouling and touches nothing else. */
  clean(): void {
    for (const hazard of this.hazards) if (hazard.spec.effect.clears && hazard.marked) this.clear(hazard);
  }

  /** Reconditioning made a new apex: the radius is drawn afresh, chips and fouling are gone. */
  renewApex(count: number): void {
    this.setRadius(this.freshRadius(PURPOSES.newApex, count));
    this.isBlunt = false;
    this.isChipped = false;
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

  private takeOn(from: TipState): void {
    Object.assign(this.use, from.use);
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
    return this.luck.uniform(purpose, this.instrument, hazard * KINDS + this.kind.index, this.number, index);
  }

  /** The hazard whose next event comes first in the running scan, or null; `nextAt` says at which fraction. */
  private nextEvent(pass: number): HazardState | null {
    let first: HazardState | null = null;
    this.nextAt = Infinity;
    for (const hazard of this.hazards) {
      const at = hazard.fractionOfNext(pass);
      if (at < this.nextAt) {
        this.nextAt = at;
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
      this.setRadius(
        this.radius * lognormalAt(radiusFactor.median, radiusFactor.spread, hazard.draw(PURPOSES.chipFactor, event)),
      );
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

  /** Use after a fraction of the running scan. */
  private useAfter(scan: ScanLoad, fraction: number): Use {
    const { images, path, hours, approaches } = this.use;
    return {
      images: images + fraction,
      path: path + scan.path * fraction,
      hours: hours + (scan.scanTime * fraction) / 3600,
      approaches,
    };
  }

  private blunt(scan: ScanLoad, fraction: number): void {
    if (this.wear === 0 || fraction <= 0 || this.kind.blunting === null) return;
    this.cube += this.kind.blunting.growth(this.wear, scan.load, scan.path * fraction);
    this.cachedRadius = cubeRoot(this.cube);
  }

  private setRadius(radius: number): void {
    this.cachedRadius = radius;
    this.cube = radius * radius * radius;
  }

  private freshRadius(purpose: Purpose, index: number): number {
    return lognormalAt(this.kind.radius.nominal, this.kind.radius.spread, this.draw(purpose, index));
  }
}
