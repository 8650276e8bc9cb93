import { PURPOSES } from '../chance/luck.js';
import { after, AT_ONCE, type Course, PAUSE, type Process } from '../kernel/simulation.js';
import type { KindModel } from '../probe/tip.js';
import { regionText } from '../scenario/samples.js';
import { ACTIVITY_NUMBER } from './activities.js';
import type { Floor } from './floor.js';
import { type Ledger, takeState } from './ledger.js';
import { type CampaignModel, type ImageModel, imagesOf, needOf, type StepModel } from './model.js';
import { ExperimentOver, SampleOver } from './over.js';
import { RANK } from './ranks.js';
import { type InstrumentState, nameOf } from './state.js';
import { Station } from './station.js';
import { type Need, type Phase, STEP_NUMBER, STEP_NUMBERS } from './steps.js';
import { Stores } from './stores.js';
import { TipHolder } from './tip-holder.js';
import type { SurfaceNeed, Workflow } from './workflow.js';
import { Worklist } from './worklist.js';

/** Specimens lost in a row at one region, after which nobody believes that it will ever be done. */
const FRUITLESS_SPECIMENS = 100;

/** What moving the instrument counts as, unless the tip is being changed. */
const LOCATING = ACTIVITY_NUMBER['locating and relocating'];
const PREPARING = ACTIVITY_NUMBER['preparing and setting up'];

/** Gives the workflow by which an instrument is worked at. */
export type WorkflowMaker = (at: Instrument) => Workflow;

/** One instrument: the region in place, and the moves that every workflow is made of. */
export class Instrument {
  readonly model: CampaignModel;
  readonly ledger: Ledger;
  readonly station: Station;
  readonly stores: Stores;
  readonly worklist: Worklist;
  readonly workflow: Workflow;
  readonly tips: TipHolder;
  readonly steps: CampaignModel['steps'];
  /** How the region is found again on a later visit. */
  readonly returning: StepModel;
  /** The sample that is on; null before the set-up, and once its last specimen is lost. */
  sample: number | null;
  /** The region in place, or on the way to be; null from where a change to another one begins. */
  region: number | null;

  /** Where the last specimen was lost. */
  private lost: InstrumentState['lost'];
  /** By region: 1 where it was found since its sample was put on. */
  private readonly visited: Uint8Array;
  /** What steps need of the surface, by number of the step. */
  private readonly surfaceNeeds: readonly (SurfaceNeed | null)[];
  /** Number of what a change of tip counts as. */
  private readonly changing: number;

  constructor(
    readonly floor: Floor,
    number: number,
    images: readonly ImageModel[],
    workflow: WorkflowMaker,
    /** How it stood when the campaign was taken up; null: the campaign begins. */
    readonly from: InstrumentState | null = null,
  ) {
    this.model = floor.model;
    this.steps = floor.model.steps;
    this.ledger = floor.ledger;
    this.worklist = new Worklist(images, from?.worklist);
    this.station = new Station(floor, number, from?.station);
    this.stores = new Stores(this.station, from?.shelves);
    this.tips = new TipHolder(this.station, from?.tips);
    this.sample = from?.sample ?? null;
    this.region = from?.region ?? null;
    this.lost = from?.lost ?? null;
    this.visited = new Uint8Array(floor.model.regions);
    for (const region of from?.visited ?? []) this.visited[region] = 1;
    if (from !== null) this.recallTakes(from);
    this.workflow = workflow(this);
    this.changing = ACTIVITY_NUMBER[this.workflow.changing];
    this.returning = this.steps[this.workflow.returning];
    this.surfaceNeeds = surfaceNeedsOf(this.workflow);
  }

  /** How it stands between two steps, but for what is noticed. */
  get bareState() {
    const { sample, region, lost, visited, station, worklist, stores, workflow, ledger } = this;
    return {
      at: station.now,
      isSetUp: true,
      sample,
      prepared: workflow.prepared,
      region,
      lost,
      visited: Array.from(visited.keys()).filter((place) => this.isVisited(place)),
      station: station.state,
      worklist: worklist.state,
      shelves: stores.state,
      chip: workflow.chipState,
      unreviewed: station.desk.waiting.map(nameOf),
      takes: worklist.images.flatMap(({ number }) => ledger.takesOf(number).map(takeState)),
      attemptsFrom: worklist.images.flatMap(({ number }) => {
        const takes = ledger.uncounted(number);
        return takes === 0 ? [] : [[number, takes] as const];
      }),
    };
  }

  kindOf(image: ImageModel): KindModel {
    return this.model.kinds[image.pass.kind];
  }

  /** The whole start: sample and first tip set up, warmed up, and the first region come to. */
  *begin(due: ImageModel): Process {
    yield* this.workflow.start(due);
    this.sample = due.sample;
    this.tips.mount(due, null);
    yield* this.step(this.steps.warmUp, 'starting');
    this.station.warmedUp();
    yield* this.locateIfNew(due, 'starting');
    yield* this.approach(due, 'starting');
  }

  /** Another region under the same tip. */
  changeRegion(due: ImageModel): Course {
    const phase = 'changing region';
    const found = after(this.leave(due, phase), () => this.locateIfNew(due, phase));
    const reached = after(found, () => this.approach(due, phase));
    return after(reached, () => this.findAgain(phase));
  }

  /** Another sample under the same tip. */
  *changeSample(due: ImageModel): Process {
    yield* this.leave(due, 'changing sample');
    yield* this.putOn(due);
    yield* this.locateIfNew(due, 'changing sample');
    yield* this.approach(due, 'changing sample');
    yield* this.step(this.steps.settle, 'changing sample');
  }

  /** What moves towards an image count as, where the tip is changed, too. */
  phaseTowards(due: ImageModel): Phase {
    return due.sample === this.sample ? 'changing tip' : 'changing sample';
  }

  /**
   * Takes the sample that is on off and puts that of an image on; nothing where it is on.
   * @throws SampleOver where its last specimen is lost thereby
   */
  putOn(due: ImageModel): Course {
    return due.sample === this.sample ? AT_ONCE : this.exchangeSample(due);
  }

  private *exchangeSample(due: ImageModel): Process {
    const { changeSample } = this.steps;
    yield* this.workflow.prepareSample(due.sample);
    for (;;) {
      yield* this.step(changeSample, 'changing sample');
      this.sample = due.sample;
      this.visited.fill(0);
      if (!this.losesSpecimen(changeSample)) break;
      yield* this.loseSpecimen(due);
    }
    yield* this.workflow.sampleChanged();
  }

  /** Retracts on the way to an image, and takes leave of the region in place where that image is in another one. */
  leave(due: ImageModel, phase: Phase): Course {
    const { station, worklist } = this;
    return this.retract(phase, false, () => {
      if (due.region !== this.region) this.region = null;
      if (due.sample === this.sample) return;
      worklist.startSample(due.sample);
      station.note('sample', () => `on to sample ${this.model.samples[due.sample].name}`);
    });
  }

  /**
   * A step of the workflow. One that needs the tip at the surface first brings it back there, if the instrument stood idle
   * over a closing in the meantime.
   */
  step(step: StepModel, phase: Phase): Course {
    const { station } = this;
    const need = needOf(step, phase);
    const surface = this.surfaceNeedOf(step, phase);
    const claim = this.isAwayFrom(surface) ? 'not yet' : station.claim(need, 0);
    return claim === 'not yet'
      ? this.performWhenReady(step, need, phase, surface)
      : this.perform(step, phase, claim === 'hands');
  }

  private *performWhenReady(step: StepModel, need: Need, phase: Phase, surface: SurfaceNeed | null): Process {
    const hands = yield* this.readyAtSurface(surface, need);
    yield* this.perform(step, phase, hands);
  }

  /** The resonance of another lever is looked at before it has come to the surface. */
  private surfaceNeedOf({ name, number }: StepModel, phase: Phase): SurfaceNeed | null {
    return phase === 'changing sample' && name === 'resonance' ? null : this.surfaceNeeds[number];
  }

  /** Does a step that may start this instant; `hands`: an operator's are held for it. */
  private perform(step: StepModel, phase: Phase, hands: boolean): Course {
    const { station } = this;
    const start = station.begin();
    return station.sim.sleepUntil(start + station.nextDuration(step), RANK.stepEnd)
      ? after(PAUSE, () => this.endStep(step, phase, hands, start))
      : this.endStep(step, phase, hands, start);
  }

  private endStep(step: StepModel, phase: Phase, hands: boolean, start: number): Course {
    this.station.end(step, this.countsAs(step, phase), start, hands, null);
    return AT_ONCE;
  }

  private countsAs({ name, activity }: StepModel, phase: Phase): number {
    if (phase === 'changing sample' && name !== 'settle') return PREPARING;
    if (activity >= 0) return activity;
    return phase === 'changing tip' ? this.changing : LOCATING;
  }

  /** As `Station.ready`, with the tip brought back to the surface, and the region found again where the step needs it. */
  private *readyAtSurface(surface: SurfaceNeed | null, need: Need): Generator<void, boolean, unknown> {
    const { station } = this;
    for (;;) {
      if (this.isAwayFrom(surface)) yield* this.returnToSurface(surface);
      const hands = yield* station.ready(need, 0);
      if (!this.isAwayFrom(surface)) return hands;
      if (hands) station.releaseHands();
    }
  }

  /** Retracts from a site that turned out dead: the region need not be found again. */
  retractFromDeadSite(): Course {
    return this.retract('changing tip', true, () => undefined);
  }

  /** Retracts, unless the tip is away from the surface already; `begun` is called when that begins. */
  private retract(phase: Phase, isFromDeadSite: boolean, begun: () => void): Course {
    const { station } = this;
    if (!station.engaged) {
      begun();
      return AT_ONCE;
    }
    const step = this.steps.retract;
    const need = needOf(step, phase);
    const claim = station.claim(need, 0);
    if (claim !== 'not yet') begun();
    const retract =
      claim === 'not yet'
        ? this.retractWhenReady(step, need, phase, begun)
        : this.perform(step, phase, claim === 'hands');
    return after(retract, () => {
      station.away(isFromDeadSite);
      return AT_ONCE;
    });
  }

  private *retractWhenReady(step: StepModel, need: Need, phase: Phase, begun: () => void): Process {
    const { station } = this;
    const hands = yield* station.ready(need, 0);
    begun();
    // It may have stood idle over a closing while it waited: what was pending goes on without its retract.
    if (station.engaged) yield* this.perform(step, phase, hands);
    else if (hands) station.releaseHands();
  }

  /** Finds the region of an image for the first time; nothing where it was found before on this specimen. */
  locateIfNew(due: ImageModel, phase: Phase): Course {
    this.region = due.region;
    this.station.due = due;
    return this.isVisited(due.region) ? AT_ONCE : this.locate(due.region, phase);
  }

  private locate(region: number, phase: Phase): Course {
    return after(this.step(this.steps.locate, phase), () => {
      this.visited[region] = 1;
      this.station.found = true;
      return AT_ONCE;
    });
  }

  /** Approaches for an image; a specimen lost on the way is replaced, and its region located again. */
  approach(due: ImageModel, phase: Phase): Course {
    this.station.due = due;
    return after(this.step(this.steps.approach, phase), () => {
      const { station, tips } = this;
      station.engaged = true;
      tips.mounted?.tip.approach(due.pass, station.now);
      tips.showTip();
      return this.losesSpecimen(this.steps.approach) ? this.approachAnother(due, phase) : AT_ONCE;
    });
  }

  private *approachAnother(due: ImageModel, phase: Phase): Process {
    yield* this.loseSpecimen(due);
    yield* this.locateIfNew(due, phase);
    yield* this.approach(due, phase);
  }

  /** Relocates or registers until the region is found again; nothing where it was just located. */
  findAgain(phase: Phase): Course {
    return this.station.found ? AT_ONCE : this.searchAgain(phase);
  }

  private *searchAgain(phase: Phase): Process {
    const { station, returning } = this;
    while (!station.found) {
      const { mark } = station.timesheet;
      yield* this.step(returning, phase);
      if (station.succeeded(returning)) station.found = true;
      else station.failedSince(mark, () => `${returning.name} is repeated`);
    }
  }

  /** Whether the last exchange breaks what it mounts. */
  isMishandled({ number: exchange }: StepModel): boolean {
    const { luck, model } = this.floor;
    const { station } = this;
    const { mishandlingChance } = model;
    return (
      mishandlingChance > 0 &&
      luck.uniform(PURPOSES.mishandling, station.number, exchange, station.latest(exchange), 0) < mishandlingChance
    );
  }

  boughtProbe(due: ImageModel): void {
    this.ledger.probesBought.push({ time: this.station.now, kind: due.pass.kind });
  }

  openedChip(): void {
    this.ledger.chipsOpened.push(this.station.now);
  }

  usedSpecimen(): void {
    this.ledger.specimensUsed.push(this.station.now);
  }

  private recallTakes({ takes, attemptsFrom }: InstrumentState): void {
    const { ledger, model, tips } = this;
    for (const take of takes)
      ledger.recall(take, model.images[take.image], take.tip === null ? null : (tips.find(take.tip)?.tip ?? null));
    for (const [image, count] of attemptsFrom) ledger.countAttemptsFrom(image, count);
  }

  /**
   * The specimen is lost by the step that has just ended, on the way to the region of `due`: another one takes its place, and that
   * region starts afresh.
   * @throws SampleOver where none is left
   */
  private *loseSpecimen(due: ImageModel): Process {
    const { station, ledger, worklist, workflow, model } = this;
    station.engaged = false;
    this.visited.fill(0);
    station.note('specimen lost', () => `on the way to ${regionText(this.model.samples, due)}`);
    if (!workflow.hasSpecimen()) {
      this.sample = null;
      this.region = null;
      worklist.lose(due.sample);
      throw new SampleOver('no specimen is left');
    }
    const images = imagesOf(model, due.region);
    ledger.voidTakes(images, station.begunAt, station.now);
    worklist.restart(images, due, model.settings.plan.order === 'tip-first');
    const specimens = this.lost?.region === due.region ? this.lost.specimens + 1 : 1;
    if (specimens > FRUITLESS_SPECIMENS) throw new ExperimentOver('one specimen after the other is lost at a region');
    this.lost = { region: due.region, specimens };
    yield* workflow.replaceSpecimen(due.sample);
  }

  /** Whether the last approach, or the last change of sample, loses the specimen. */
  private losesSpecimen({ number: step }: StepModel): boolean {
    const chance = this.workflow.specimenLoss;
    if (chance === 0) return false;
    const { number } = this.station;
    return this.floor.luck.uniform(PURPOSES.specimenLoss, number, step, this.station.latest(step), 0) < chance;
  }

  /** A scan needs the tip at the surface, or the region in the frame, and it is not. */
  get isAwayForScan(): boolean {
    return this.isAwayFrom('after finding');
  }

  /** The tip is to be at the surface, or the region in the frame, and it is not. */
  private isAwayFrom(needed: SurfaceNeed | null): boolean {
    if (this.station.engaged && this.station.found) return false;
    return needed !== null && (!this.station.engaged || (needed === 'after finding' && !this.station.found));
  }

  isVisited(region: number): boolean {
    return this.visited[region] === 1;
  }

  /** Back to the surface after an idle closing, at the region in place. */
  *resume(due: ImageModel): Process {
    if (!this.station.engaged) yield* this.approach(due, 'resuming');
    yield* this.findAgain('resuming');
  }

  private *returnToSurface(surface: SurfaceNeed | null): Process {
    const { station } = this;
    if (station.due === null) throw new Error('No image is due to approach for.');
    if (surface === 'after finding') yield* this.resume(station.due);
    else if (!station.engaged) yield* this.approach(station.due, 'resuming');
  }
}

/** By number of the step. */
function surfaceNeedsOf({ atSurface }: Workflow): readonly (SurfaceNeed | null)[] {
  const needs = STEP_NUMBERS.map((): SurfaceNeed | null => null);
  for (const [name, need] of atSurface) needs[STEP_NUMBER[name]] = need;
  needs[STEP_NUMBER.check] = 'after finding';
  return needs;
}
