import { PURPOSES } from '../chance/luck.js';
import type { Process } from '../kernel/simulation.js';
import type { KindModel } from '../probe/tip.js';
import { pow } from '../chance/elementary.js';
import type { Floor } from './floor.js';
import { type Ledger, takeState } from './ledger.js';
import type { CampaignModel, ImageModel } from './model.js';
import { RANK } from './ranks.js';
import { type InstrumentState, nameOf } from './state.js';
import { Station } from './station.js';
import { activityOf, type Need, type Phase, STEP_NUMBER, type StepName } from './steps.js';
import { Stores } from './stores.js';
import { TipHolder } from './tip-holder.js';
import type { Workflow } from './workflow.js';
import { Worklist } from './worklist.js';

/** Gives the workflow by which an instrument is worked at. */
export type WorkflowMaker = (at: Instrument) => Workflow;

/** One instrument: the region in place, and the moves that every workflow is made of. */
export class Instrument {
  readonly station: Station;
  readonly stores: Stores;
  readonly worklist: Worklist;
  readonly workflow: Workflow;
  readonly tips: TipHolder;
  /** The region in place. */
  region: number | null = null;

  private readonly visited: Set<number>;

  constructor(
    readonly floor: Floor,
    number: number,
    images: readonly ImageModel[],
    workflow: WorkflowMaker,
    /** How it stood when the campaign was taken up; null: the campaign begins. */
    readonly from: InstrumentState | null = null,
  ) {
    this.worklist = new Worklist(images, from?.worklist);
    this.station = new Station(floor, number, from?.station);
    this.stores = new Stores(this.station, from?.shelves);
    this.tips = new TipHolder(this.station, from?.tips);
    this.region = from?.region ?? null;
    this.visited = new Set(from?.visited);
    if (from !== null) this.recallTakes(from);
    this.workflow = workflow(this);
  }

  /** How it stands between two steps, but for what is noticed. */
  get bareState() {
    const { region, visited, station, worklist, stores, workflow, ledger } = this;
    return {
      at: station.now,
      isSetUp: true,
      region,
      visited: [...visited],
      station: station.state,
      worklist: worklist.state,
      shelves: stores.state,
      chip: workflow.chipState,
      unreviewed: station.desk.waiting.map(nameOf),
      takes: worklist.images.flatMap(({ number }) => ledger.takes[number].map(takeState)),
      attemptsFrom: worklist.images.flatMap(({ number }) => {
        const takes = ledger.uncounted(number);
        return takes === 0 ? [] : [[number, takes] as const];
      }),
    };
  }

  get model(): CampaignModel {
    return this.floor.model;
  }

  get ledger(): Ledger {
    return this.floor.ledger;
  }

  kindOf(image: ImageModel): KindModel {
    return this.model.kinds[image.pass.kind];
  }

  /** The whole start: sample and first tip set up, warmed up, and the first region come to. */
  *begin(due: ImageModel): Process {
    yield* this.workflow.start(due);
    this.tips.mount(due, null);
    yield* this.step('warmUp', 'starting');
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
   * A step of the workflow; gives its occurrence, from 0. One that needs the tip at the surface first brings it back there,
   * if the instrument stood idle over a closing in the meantime.
   */
  *step(name: StepName, phase: Phase): Generator<void, number, unknown> {
    const { station } = this;
    const need = station.needOf(name, station.spec(name).manual, phase);
    const claim = this.isAway(name) ? 'not yet' : station.claim(need, 0);
    const hands = claim === 'not yet' ? yield* this.readyAtSurface(name, need, 0) : claim === 'hands';
    return yield* this.perform(name, phase, hands);
  }

  /** Does a step that may start this instant; `hands`: an operator's are held for it. */
  private *perform(name: StepName, phase: Phase, hands: boolean): Generator<void, number, unknown> {
    const { station, floor } = this;
    const start = station.begin();
    const occurrence = station.count(name);
    if (floor.sim.sleepUntil(start + station.durationOf(name, occurrence), RANK.stepEnd)) yield;
    station.end(name, activityOf(name, phase, this.workflow.changing), start, hands, null);
    return occurrence;
  }

  /** As `Station.ready`, with the tip brought back to the surface, and the region found again where the step needs it. */
  *readyAtSurface(name: StepName, need: Need, room: number): Generator<void, boolean, unknown> {
    const { station } = this;
    for (;;) {
      if (this.isAway(name)) yield* this.returnToSurface(name);
      const hands = yield* station.ready(need, room);
      if (!this.isAway(name)) return hands;
      if (hands) this.floor.operators.release();
    }
  }

  /** Retracts, unless the tip is away from the surface already. The region is then to be found again, except after a dead site. */
  *retract(phase: Phase, isFromDeadSite = false): Process {
    const { station } = this;
    if (!this.isEngaged()) return;
    const need = station.needOf('retract', station.spec('retract').manual, phase);
    const claim = station.claim(need, 0);
    const hands = claim === 'not yet' ? yield* station.ready(need, 0) : claim === 'hands';
    // It may have stood idle over a closing while it waited: what was pending goes on without its retract.
    if (this.isEngaged()) yield* this.perform('retract', phase, hands);
    else if (hands) this.floor.operators.release();
    station.engaged = false;
    if (!isFromDeadSite) station.found = false;
  }

  /** Finds the region of an image for the first time; nothing where it was found before on this specimen. */
  *locateIfNew(due: ImageModel, phase: Phase): Process {
    this.region = due.region;
    this.station.due = due;
    if (this.visited.has(due.region)) return;
    yield* this.step('locate', phase);
    this.visited.add(due.region);
    this.station.found = true;
  }

  /** Approaches for an image; a specimen lost on the way is replaced, and its region located again. */
  *approach(due: ImageModel, phase: Phase): Process {
    const { station } = this;
    for (;;) {
      station.due = due;
      const occurrence = yield* this.step('approach', phase);
      station.engaged = true;
      this.tips.mounted?.tip.approach(due.pass, station.now);
      this.tips.showTip();
      if (!this.losesSpecimen(occurrence)) return;
      station.engaged = false;
      station.note('specimen lost', `at the approach for region ${due.region + 1}`);
      this.ledger.voidRegion(due.region, this.worklist.images, station.now);
      this.worklist.restart(due.region, due, this.model.settings.plan.order === 'tip-first');
      this.visited.clear();
      yield* this.workflow.replaceSpecimen();
      yield* this.locateIfNew(due, phase);
    }
  }

  /** Relocates or registers until the region is found again; nothing where it was just located. */
  *findAgain(phase: Phase): Process {
    const { station } = this;
    const { returning } = this.workflow;
    const { success } = station.spec(returning);
    while (!station.found) {
      const occurrence = yield* this.step(returning, phase);
      if (station.succeeds(returning, occurrence, success)) station.found = true;
      else station.note('failed', `${returning} is repeated`);
    }
  }

  /** Whether the exchange with this occurrence breaks what it mounts. */
  isMishandled(step: 'exchange' | 'chipExchange', occurrence: number): boolean {
    const { settings, workflow } = this.model;
    const { probability, paceExponent } = settings.workflows[workflow].mishandling;
    const chance = Math.min(1, probability * pow(settings.pace.hands, paceExponent));
    return (
      this.floor.luck.uniform(PURPOSES.mishandling, this.station.number, STEP_NUMBER[step], occurrence, 0) < chance
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

  private losesSpecimen(occurrence: number): boolean {
    const chance = this.workflow.specimenLoss;
    return (
      chance > 0 &&
      this.floor.luck.uniform(PURPOSES.specimenLoss, this.station.number, STEP_NUMBER.approach, occurrence, 0) < chance
    );
  }

  /** Asked anew each time, since waiting may change it. */
  private isEngaged(): boolean {
    return this.station.engaged;
  }

  /** The step needs the tip at the surface, or the region in the frame, and it is not. */
  isAway(name: StepName): boolean {
    const needed = this.surfaceNeedOf(name);
    return needed !== null && (!this.station.engaged || (needed === 'after finding' && !this.station.found));
  }

  isVisited(region: number): boolean {
    return this.visited.has(region);
  }

  /** Back to the surface after an idle closing, at the region in place. */
  *resume(due: ImageModel): Process {
    if (!this.isEngaged()) yield* this.approach(due, 'resuming');
    yield* this.findAgain('resuming');
  }

  private *returnToSurface(name: StepName): Process {
    const { station } = this;
    if (station.due === null) throw new Error('No image is due to approach for.');
    if (this.surfaceNeedOf(name) === 'after finding') yield* this.resume(station.due);
    else if (!station.engaged) yield* this.approach(station.due, 'resuming');
  }

  private surfaceNeedOf(name: StepName): 'before finding' | 'after finding' | null {
    if (name === 'scan' || name === 'check') return 'after finding';
    return this.workflow.atSurface[name] ?? null;
  }
}
