import { PURPOSES } from '../chance/luck.js';
import { SECOND } from '../kernel/clock.js';
import type { Process } from '../kernel/simulation.js';
import type { Scenario } from '../scenario/schema/scenario.js';
import type { Instrument } from './instrument.js';
import type { WentBecause } from './ledger.js';
import type { ImageModel } from './model.js';
import type { ChipState } from './state.js';
import type { Phase } from './steps.js';
import type { Mark } from './timesheet.js';
import type { Workflow } from './workflow.js';

/** Hops after which a coarse move is due; Infinity where none ever is. */
export function hopsPerCoarseMove({ workflows }: Scenario): number {
  const { fineRange, chip } = workflows.hop;
  return fineRange === undefined ? Infinity : Math.max(1, Math.floor(fineRange / chip.pitch + 1e-9));
}

const AT_SURFACE: Workflow['atSurface'] = new Map([
  ['resonance', 'before finding'],
  ['settle', 'before finding'],
  ['register', 'before finding'],
]);

/** Array-hop: the specimen rides on a lever, a chip of many tips lies on the stage. */
export class Hop implements Workflow {
  readonly changing = 'hopping';
  readonly firstStep = 'offset';
  readonly returning = 'register';
  readonly atSurface = AT_SURFACE;
  readonly specimenLoss: number;

  /** Number of the chip on the stage, and of the next site by kind. */
  private chip: number;
  private readonly nextSite: Map<number, number>;
  /** Kind of the site that was come to last. */
  private kindBefore: number | null;
  private hopsSinceCoarse: number;
  /** Hops after which a coarse move is due. */
  private readonly reach: number;
  /** The exchange that brought this chip broke its tips; found so at the resonance. */
  private chipIsBroken: boolean;
  /** Where the instrument's time stood before it; null where that was before the campaign was taken up. */
  private beforeExchange: Mark | null = null;
  private readonly isAtBench: boolean;
  /** Samples that this instrument measures. */
  private readonly samples: readonly number[];
  /** Samples whose first specimen is prepared. */
  private readonly isPrepared: Set<number>;

  constructor(private readonly at: Instrument) {
    this.specimenLoss = at.model.settings.workflows.hop.specimenLoss;
    this.reach = hopsPerCoarseMove(at.model.settings);
    const from = at.from?.chip;
    this.chip = from?.chip ?? -1;
    this.nextSite = new Map(from?.nextSite);
    this.kindBefore = from?.kindBefore ?? null;
    this.hopsSinceCoarse = from?.hopsSinceCoarse ?? 0;
    this.chipIsBroken = from?.isBroken ?? false;
    this.isAtBench = at.model.settings.workflows.hop.prepareAt === 'bench';
    this.samples = [...new Set(at.worklist.images.map(({ sample }) => sample))];
    this.isPrepared = new Set(at.from?.prepared);
  }

  get prepared(): readonly number[] {
    return [...this.isPrepared];
  }

  get chipState(): ChipState {
    const { chip, kindBefore, hopsSinceCoarse, chipIsBroken } = this;
    return { chip, nextSite: [...this.nextSite], kindBefore, hopsSinceCoarse, isBroken: chipIsBroken };
  }

  *start(due: ImageModel): Process {
    if (this.isAtBench) this.prepareAhead();
    else yield* this.prepareSample(due.sample);
    yield* this.at.stores.takeOne('chip');
    yield* this.at.step(this.at.steps.setUp, 'starting');
    this.openChip();
    this.nextSite.set(due.pass.kind, 1);
    this.kindBefore = due.pass.kind;
  }

  *changeTip(due: ImageModel, why: WentBecause): Process {
    const { at } = this;
    yield* at.leave(due, 'changing tip');
    at.tips.takeOff(why);
    const parked = at.tips.parkedFor(due);
    if (parked === null) {
      yield* this.hopToLiveSite(due);
    } else {
      yield* at.step(at.steps.offset, 'changing tip');
      yield* this.coarseMove();
      this.kindBefore = due.pass.kind;
      at.tips.mount(due, parked);
      yield* this.comeTo(due);
      yield* at.step(at.steps.resonance, 'changing tip');
    }
    yield* at.step(at.steps.settle, 'changing tip');
    yield* at.findAgain('changing tip');
  }

  /** Puts the sample of an image on where another one is on, and approaches its region, located if it is new. */
  private *comeTo(due: ImageModel): Process {
    const { at } = this;
    const phase = at.phaseTowards(due);
    yield* at.putOn(due);
    yield* at.locateIfNew(due, phase);
    yield* at.approach(due, phase);
  }

  isToPrepare(sample: number): boolean {
    return !this.isPrepared.has(sample);
  }

  *prepareSample(sample: number): Process {
    if (this.isToPrepare(sample)) yield* this.prepare(sample, 'changing sample');
  }

  /** The light spot falls on another lever. */
  *sampleChanged(): Process {
    const { at } = this;
    yield* at.step(at.steps.align, 'changing sample');
    yield* at.step(at.steps.resonance, 'changing sample');
  }

  hasSpecimen(): boolean {
    return this.at.stores.hasSpareSpecimen(this.samples.filter((sample) => this.isToPrepare(sample)).length);
  }

  *replaceSpecimen(sample: number): Process {
    yield* this.prepare(sample, 'changing tip');
  }

  /** From site to site until one is alive, with another chip when this one has no more; ends with the look at the resonance. */
  private *hopToLiveSite(due: ImageModel): Process {
    const { at } = this;
    let coarseMoved = false;
    for (;;) {
      if (this.chipIsBroken || !this.hasSite(due.pass.kind)) yield* this.exchangeChip();
      yield* at.step(at.steps.offset, 'changing tip');
      this.hopsSinceCoarse += 1;
      const isDue = this.kindBefore !== due.pass.kind || this.hopsSinceCoarse >= this.reach;
      if (isDue && !coarseMoved) {
        yield* this.coarseMove();
        coarseMoved = true;
      }
      this.kindBefore = due.pass.kind;
      const isAlive = this.takeSite(due.pass.kind);
      if (isAlive) at.tips.mount(due, null);
      try {
        yield* this.comeTo(due);
      } catch (reason) {
        // The last specimen is lost before anybody has looked at the resonance.
        if (this.chipIsBroken) this.spoilChip();
        throw reason;
      }
      if (!isAlive) {
        at.station.note('dead site', () => `${at.kindOf(due).name}: on to the next`);
        yield* at.retractFromDeadSite();
        continue;
      }
      yield* at.step(at.steps.resonance, 'changing tip');
      if (!this.chipIsBroken) return;
      this.spoilChip();
    }
  }

  /** The chip turns out to have been broken in its exchange. */
  private spoilChip(): void {
    const { tips, station } = this.at;
    tips.spoilInHand();
    if (this.beforeExchange !== null) station.timesheet.moveSince(this.beforeExchange, 'mishandling');
  }

  private *exchangeChip(): Process {
    const { at } = this;
    yield* at.stores.takeOne('chip');
    this.beforeExchange = at.station.timesheet.mark;
    yield* at.step(at.steps.chipExchange, 'changing tip');
    at.station.engaged = false;
    at.tips.discardParked('its chip was exchanged');
    this.openChip();
    this.chipIsBroken = at.isMishandled(at.steps.chipExchange);
  }

  private *coarseMove(): Process {
    yield* this.at.step(this.at.steps.coarseMove, 'changing tip');
    this.hopsSinceCoarse = 0;
  }

  /** At the bench the specimens of all samples are prepared before the start. */
  private prepareAhead(): void {
    const { at } = this;
    const { station, steps } = at;
    const samples = this.samples.filter((sample) => this.isToPrepare(sample));
    if (samples.length === 0) return;
    at.stores.takeSpecimensAhead(samples.length);
    for (const sample of samples) {
      at.usedSpecimen();
      station.prepareFor(sample);
      do station.aheadOnBench(steps.prepare);
      while (!station.succeeded(steps.prepare));
      this.isPrepared.add(sample);
    }
    const minutes = Math.floor(station.benchTime / (60 * SECOND) + 0.5);
    station.note('prepared', () => `${samples.length} × specimen, before the start, ${minutes} min at the bench`);
  }

  private *prepare(sample: number, phase: Phase): Process {
    const { at } = this;
    const { station } = at;
    const { prepare } = at.steps;
    yield* at.stores.takeSpecimen(this.isAtBench);
    at.usedSpecimen();
    station.prepareFor(sample);
    for (;;) {
      const { mark } = station.timesheet;
      yield* this.isAtBench ? station.onBench(prepare) : at.step(prepare, phase);
      if (station.succeeded(prepare)) break;
      station.failedSince(mark, () => 'the specimen is prepared again');
    }
    this.isPrepared.add(sample);
  }

  private openChip(): void {
    this.chip += 1;
    this.chipIsBroken = false;
    this.nextSite.clear();
    this.hopsSinceCoarse = 0;
    this.at.openedChip();
  }

  private hasSite(kind: number): boolean {
    return (
      (this.nextSite.get(kind) ?? 0) <
      (this.at.model.settings.workflows.hop.chip.sites[this.at.model.kinds[kind].name] ?? 0)
    );
  }

  /** Takes the next site of a kind; whether it is alive. */
  private takeSite(kind: number): boolean {
    const site = this.nextSite.get(kind) ?? 0;
    this.nextSite.set(kind, site + 1);
    const share = this.at.model.settings.workflows.hop.chip.dead[this.at.model.kinds[kind].name] ?? 0;
    const { luck } = this.at.station.floor;
    return luck.uniform(PURPOSES.dead, this.at.station.number, kind, this.chip, site) >= share;
  }
}
