import { PURPOSES } from '../chance/luck.js';
import { after, AT_ONCE, type Course, type Process } from '../kernel/simulation.js';
import type { KindModel } from '../probe/tip.js';
import { ACTIVITY_NUMBER } from './activities.js';
import type { Floor } from './floor.js';
import { type Ledger, takeState } from './ledger.js';
import { type CampaignModel, type ImageModel, imagesOf, type StepModel } from './model.js';
import { ExperimentOver } from './over.js';
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

const SCAN = STEP_NUMBER.scan;

/** What moving the instrument counts as, unless the tip is being changed. */
const LOCATING = ACTIVITY_NUMBER['locating and relocating'];

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
  /** The region in place. */
  region: number | null = null;

  /** Where the last specimen was lost. */
  private lost: InstrumentState['lost'];
  /** By region: 1 where it was found on this specimen. */
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
    this.region = from?.region ?? null;
    this.lost = from?.lost ?? null;
    this.visited = new Uint8Array(floor.model.settings.plan.regions);
    for (const region of from?.visited ?? []) this.visited[region] = 1;
    if (from !== null) this.recallTakes(from);
    this.workflow = workflow(this);
    this.changing = ACTIVITY_NUMBER[this.workflow.changing];
    this.returning = this.steps[this.workflow.returning];
    this.surfaceNeeds = surfaceNeedsOf(this.workflow);
  }

  /** How it stands between two steps, but for what is noticed. */
  get bareState() {
    const { region, lost, visited, station, worklist, stores, workflow, ledger } = this;
    return {
      at: station.now,
      isSetUp: true,
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
    this.tips.mount(due, null);
    yield* this.step(this.steps.warmUp, 'starting');
    this.station.warmedUp();
    yield* this.locateIfNew(due, 'starting');
    yield* this.approach(due, 'starting');
  }

  /** Another region under the same tip. */
  *changeRegion(due: ImageModel): Process {
    yield* this.retract('changing region');
    yield* this.locateIfNew(due, 'changing region');
    yield* this.approach(due, 'changing region');
    yield* this.findAgain('changing region');
  }

  /**
   * A step of the workflow. One that needs the tip at the surface first brings it back there, if the instrument stood idle
   * over a closing in the meantime.
   */
  step(step: StepModel, phase: Phase): Course {
    const { station } = this;
    const need = station.needOf(step.name, step.manual, phase);
    const claim = this.isAway(step.number) ? 'not yet' : station.claim(need, 0);
    return claim === 'not yet'
      ? this.performWhenReady(step, need, phase)
      : this.perform(step, phase, claim === 'hands');
  }

  private *performWhenReady(step: StepModel, need: Need, phase: Phase): Process {
    const hands = yield* this.readyAtSurface(step.number, need, 0);
    yield* this.perform(step, phase, hands);
  }

  /** Does a step that may start this instant; `hands`: an operator's are held for it. */
  private perform(step: StepModel, phase: Phase, hands: boolean): Course {
    const { station } = this;
    const start = station.begin();
    if (station.sim.sleepUntil(start + station.nextDuration(step), RANK.stepEnd))
      return this.performed(step, phase, hands, start);
    this.endStep(step, phase, hands, start);
    return AT_ONCE;
  }

  private *performed(step: StepModel, phase: Phase, hands: boolean, start: number): Process {
    yield;
    this.endStep(step, phase, hands, start);
  }

  private endStep({ name, activity }: StepModel, phase: Phase, hands: boolean, start: number): void {
    const counts = activity >= 0 ? activity : phase === 'changing tip' ? this.changing : LOCATING;
    this.station.end(name, counts, start, hands, null);
  }

  /** As `Station.ready`, with the tip brought back to the surface, and the region found again where the step needs it. */
  private *readyAtSurface(step: number, need: Need, room: number): Generator<void, boolean, unknown> {
    const { station } = this;
    for (;;) {
      if (this.isAway(step)) yield* this.returnToSurface(step);
      const hands = yield* station.ready(need, room);
      if (!this.isAway(step)) return hands;
      if (hands) station.releaseHands();
    }
  }

  /** Retracts, unless the tip is away from the surface already. The region is then to be found again, except after a dead site. */
  retract(phase: Phase, isFromDeadSite = false): Course {
    const { station } = this;
    if (!station.engaged) return AT_ONCE;
    const step = this.steps.retract;
    const need = station.needOf('retract', step.manual, phase);
    const claim = station.claim(need, 0);
    const retract =
      claim === 'not yet' ? this.retractWhenReady(step, need, phase) : this.perform(step, phase, claim === 'hands');
    return after(retract, () => {
      station.away(isFromDeadSite);
      return AT_ONCE;
    });
  }

  private *retractWhenReady(step: StepModel, need: Need, phase: Phase): Process {
    const { station } = this;
    const hands = yield* station.ready(need, 0);
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
      return this.losesSpecimen() ? this.approachAnother(due, phase) : AT_ONCE;
    });
  }

  private *approachAnother(due: ImageModel, phase: Phase): Process {
    this.loseSpecimen(due);
    yield* this.workflow.replaceSpecimen();
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
      yield* this.step(returning, phase);
      if (station.succeeded(returning)) station.found = true;
      else station.note('failed', () => `${returning.name} is repeated`);
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

  private loseSpecimen(due: ImageModel): void {
    const { station, ledger, worklist, model } = this;
    station.engaged = false;
    station.note('specimen lost', () => `at the approach for region ${due.region + 1}`);
    const images = imagesOf(model, due.region);
    ledger.voidTakes(images, station.now);
    worklist.restart(images, due, model.settings.plan.order === 'tip-first');
    this.visited.fill(0);
    const specimens = this.lost?.region === due.region ? this.lost.specimens + 1 : 1;
    if (specimens > FRUITLESS_SPECIMENS) throw new ExperimentOver('one specimen after the other is lost at a region');
    this.lost = { region: due.region, specimens };
  }

  /** Whether the last approach loses the specimen. */
  private losesSpecimen(): boolean {
    const chance = this.workflow.specimenLoss;
    if (chance === 0) return false;
    const { number } = this.station;
    const occurrence = this.station.latest(STEP_NUMBER.approach);
    return this.floor.luck.uniform(PURPOSES.specimenLoss, number, STEP_NUMBER.approach, occurrence, 0) < chance;
  }

  /** A scan needs the tip at the surface, or the region in the frame, and it is not. */
  get isAwayForScan(): boolean {
    return this.isAway(SCAN);
  }

  /** The step with this number needs the tip at the surface, or the region in the frame, and it is not. */
  isAway(step: number): boolean {
    if (this.station.engaged && this.station.found) return false;
    const needed = this.surfaceNeeds[step];
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

  private *returnToSurface(step: number): Process {
    const { station } = this;
    if (station.due === null) throw new Error('No image is due to approach for.');
    if (this.surfaceNeeds[step] === 'after finding') yield* this.resume(station.due);
    else if (!station.engaged) yield* this.approach(station.due, 'resuming');
  }
}

/** By number of the step. */
function surfaceNeedsOf({ atSurface }: Workflow): readonly (SurfaceNeed | null)[] {
  const needs = STEP_NUMBERS.map((): SurfaceNeed | null => null);
  for (const [name, need] of atSurface) needs[STEP_NUMBER[name]] = need;
  needs[STEP_NUMBER.scan] = 'after finding';
  needs[STEP_NUMBER.check] = 'after finding';
  return needs;
}
