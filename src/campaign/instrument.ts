import { PURPOSES } from '../chance/luck.js';
import { regionText } from '../scenario/samples.js';
import { Chip } from './chip.js';
import type { CampaignContext } from './context.js';
import { type Ledger, takeState, type WentBecause } from './ledger.js';
import { type CampaignModel, type ImageModel, imagesOf } from './model.js';
import type { StepModel } from './step-model.js';
import { ExperimentOver, SampleOver } from './over.js';
import type { Wait } from './wait.js';
import type { SurfaceNeed } from './steps.js';
import type { WorkflowTraits } from './workflow-traits.js';
import { type MountedTip, type Remedy, remedyFor } from './replacing.js';
import { Scheduler } from './scheduler.js';
import { Specimens } from './specimens.js';
import { type InstrumentState, nameOf } from './state.js';
import { Stores } from './stores.js';
import { TipHolder } from './tip-holder.js';
import { MARK } from './timesheet.js';
import { Waits } from './waits.js';
import { Worklist } from './worklist.js';

/** Specimens lost in a row at one region, after which nobody believes that it will ever be done. */
const FRUITLESS_SPECIMENS = 100;

/** One instrument: what it has, how it stands, and what its procedures do in no time. */
export class Instrument {
  readonly model: CampaignModel;
  readonly steps: CampaignModel['steps'];
  readonly ledger: Ledger;
  readonly scheduler: Scheduler;
  readonly waits: Waits;
  readonly stores: Stores;
  readonly worklist: Worklist;
  readonly tips: TipHolder;
  readonly chip: Chip;
  readonly specimens: Specimens;
  /** The sample that is on; null before the set-up, and once its last specimen is lost. */
  sample: number | null;
  /** The region in place, or on the way to be; null from where a change to another one begins. */
  region: number | null;

  /** The image that the procedure under way is for, */
  due: ImageModel;
  /** and why a tip is taken off in it. */
  why: WentBecause = 'another kind was needed';
  /** What is waited for outside of a procedure. */
  waitsFor: Wait | null = null;
  /** The parked tip that is put on in a change; null: a new one is. */
  parked: MountedTip | null = null;
  /** The exchange that has just been looked at broke what it mounted. */
  isSpoiledInExchange = false;
  /** The last approach, or change of sample, lost the specimen. */
  isSpecimenLost = false;

  /** Where the last specimen was lost. */
  private lost: InstrumentState['lost'];
  /** By region: 1 where it was found since its sample was put on. */
  private readonly visited: Uint8Array;

  constructor(
    readonly context: CampaignContext,
    /** How it is worked at. */
    readonly traits: WorkflowTraits,
    number: number,
    images: readonly ImageModel[],
    /** How it stood when the campaign was taken up; null: the campaign begins. */
    readonly from: InstrumentState | null = null,
  ) {
    const { model, ledger } = context;
    this.model = model;
    this.steps = model.steps;
    this.ledger = ledger;
    this.worklist = new Worklist(images, from?.worklist);
    this.scheduler = new Scheduler(context, number, from?.station);
    this.waits = new Waits(this.scheduler);
    this.stores = new Stores(this.scheduler, this.waits, from?.shelves);
    this.tips = new TipHolder(this.scheduler, from?.tips);
    this.chip = new Chip(this.scheduler, from?.chip ?? null);
    this.specimens = new Specimens(this.scheduler, this.stores, images, from?.prepared ?? []);
    this.sample = from?.sample ?? null;
    this.region = from?.region ?? null;
    this.lost = from?.lost ?? null;
    this.visited = new Uint8Array(model.regions);
    for (const region of from?.visited ?? []) this.visit(region);
    if (from !== null) this.recallTakes(from);
    this.due = images.at(0) ?? model.images[0];
  }

  /** How it stands between two attempts. */
  get bareState(): Omit<InstrumentState, 'last'> {
    const { sample, region, lost, visited, scheduler, worklist, stores, specimens, chip, ledger, traits } = this;
    return {
      at: scheduler.now,
      isSetUp: true,
      sample,
      prepared: [...specimens.prepared],
      region,
      lost,
      visited: Array.from(visited.keys()).filter((place) => this.isVisited(place)),
      station: scheduler.state,
      worklist: worklist.state,
      shelves: stores.state,
      chip: traits.hasChips ? chip.state : null,
      unreviewed: scheduler.reviews.waiting.map(nameOf),
      takes: worklist.images.flatMap(({ number }) => ledger.takesOf(number).map(takeState)),
      attemptsFrom: worklist.images.flatMap(({ number }) => {
        const takes = ledger.uncounted(number);
        return takes === 0 ? [] : [[number, takes] as const];
      }),
      tips: this.tips.state,
    };
  }

  /** The image for which the tip is brought back to the surface. */
  get awaited(): ImageModel {
    const { due } = this.scheduler;
    if (due === null) throw new Error('No image is due to approach for.');
    return due;
  }

  /** The tip that is on, and what is known of it. */
  get mounted(): MountedTip {
    const { mounted } = this.tips;
    if (mounted === null) throw new Error('No tip is on.');
    return mounted;
  }

  /** What is to be done about the tip before the next take of an image. */
  remedyFor(due: ImageModel): Remedy {
    const { context, model, scheduler, ledger } = this;
    for (;;) {
      const { mounted } = this.tips;
      if (mounted === null) return { what: 'change', why: 'another kind was needed' };
      const ruled = remedyFor(mounted, due, model);
      if (context.advisor === null) return ruled;
      const takes = ledger.count(due);
      const situation = { time: scheduler.now, instrument: scheduler.number, mounted, due, takes, ruled };
      const remedy = context.advisor.remedy(situation);
      if (remedy.what !== 'trust') return remedy;
      mounted.judgement = 'sound';
    }
  }

  takeTipOff(): void {
    this.tips.takeOff(this.why);
    this.parked = this.tips.parkedFor(this.due);
  }

  beginExchange(): void {
    this.scheduler.timesheet.begin(MARK.exchange);
  }

  /** Whether the last exchange breaks what it mounts. */
  isMishandled({ number: exchange }: StepModel): boolean {
    const { luck, model } = this.context;
    const { scheduler } = this;
    const { mishandlingChance } = model;
    return (
      mishandlingChance > 0 &&
      luck.uniform(PURPOSES.mishandling, scheduler.number, exchange, scheduler.draws.latest(exchange), 0) <
        mishandlingChance
    );
  }

  boughtProbe(): void {
    this.ledger.probesBought.push({ time: this.scheduler.now, kind: this.due.pass.kind });
  }

  /**
   * The specimen is lost by the step that has just ended, on the way to the region that is due: another one takes its place, and
   * that region starts afresh.
   * @throws SampleOver where none is left
   */
  loseSpecimen(): void {
    const { scheduler, ledger, worklist, model, due } = this;
    scheduler.engaged = false;
    this.forgetVisits();
    scheduler.note('specimen lost', () => `on the way to ${regionText(model.samples, due)}`);
    if (!this.specimens.hasSpare) {
      this.sample = null;
      this.region = null;
      worklist.lose(due.sample);
      throw new SampleOver('no specimen is left');
    }
    const images = imagesOf(model, due.region);
    ledger.voidTakes(images, scheduler.begunAt, scheduler.now);
    worklist.restart(images, due, model.settings.plan.order === 'tip-first');
    const specimens = this.lost?.region === due.region ? this.lost.specimens + 1 : 1;
    if (specimens > FRUITLESS_SPECIMENS) throw new ExperimentOver('one specimen after the other is lost at a region');
    this.lost = { region: due.region, specimens };
  }

  /** Whether the last approach, or the last change of sample, loses the specimen. */
  losesSpecimen({ number: step }: StepModel): boolean {
    const { specimenLoss: chance } = this.traits;
    if (chance === 0) return false;
    const { number } = this.scheduler;
    const u = this.context.luck.uniform(PURPOSES.specimenLoss, number, step, this.scheduler.draws.latest(step), 0);
    return u < chance;
  }

  /** A scan needs the tip at the surface and the region in the frame, and it is not so. */
  get isAwayForScan(): boolean {
    return this.isAwayFrom('after finding');
  }

  /** The tip is to be at the surface, or the region in the frame, and it is not. */
  isAwayFrom(needed: SurfaceNeed): boolean {
    const { engaged, found } = this.scheduler;
    return !engaged || (needed === 'after finding' && !found);
  }

  isVisited(region: number): boolean {
    return this.visited[region] === 1;
  }

  visit(region: number): void {
    this.visited[region] = 1;
  }

  /** No region of the sample counts as visited. */
  forgetVisits(): void {
    this.visited.fill(0);
  }

  private recallTakes({ takes, attemptsFrom }: InstrumentState): void {
    const { ledger, model, tips } = this;
    for (const take of takes)
      ledger.recall(take, model.images[take.image], take.tip === null ? null : (tips.find(take.tip)?.tip ?? null));
    for (const [image, count] of attemptsFrom) ledger.countAttemptsFrom(image, count);
  }
}
