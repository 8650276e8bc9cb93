import { compileDuration } from '../chance/duration.js';
import { pow } from '../chance/elementary.js';
import { microseconds } from '../kernel/clock.js';
import { WeeklyHours } from '../kernel/hours.js';
import type { DisturbanceKind, DriftCourse } from '../probe/drift.js';
import { compileHazards } from '../probe/hazards.js';
import { demandOf, type ImageDemand } from '../probe/image.js';
import type { KindModel } from '../probe/tip.js';
import { bluntingOf } from '../scenario/blunting.js';
import { expandPlan, type PlannedImage } from '../scenario/plan.js';
import { leverLoadOf } from '../scenario/quality.js';
import { regionCount, type Sample, samplesOf } from '../scenario/samples.js';
import type { ScanLoad } from '../scenario/scan-load.js';
import type { Scenario, WorkflowName } from '../scenario/schema/scenario.js';
import type { Step } from '../scenario/schema/steps.js';
import { stepPace } from '../scenario/step-pace.js';
import { ACTIVITY_NUMBER } from './activities.js';
import { alwaysCountsAs, disturbanceOf, type Need, perStep, type Phase, runsUnattended } from './steps.js';
import { STEP_NUMBER, type StepName } from './steps.js';

/** One pass, ready for use: its scan, and what its images demand. */
export interface PassModel extends ScanLoad {
  readonly demand: ImageDemand;
  /** Tip kind, by its place among the kinds. */
  readonly kind: number;
  readonly critical: boolean;
  readonly weight: number;
  /** Scan time in microseconds. */
  readonly duration: number;
}

/** One image of the plan. */
export interface ImageModel {
  /** Its number in plan order, from 0. */
  readonly number: number;
  /** Numbers its draws: the same for an image of a region and pass in whatever order the plan is. */
  readonly drawn: number;
  readonly sample: number;
  /** Counted through all samples. */
  readonly region: number;
  readonly pass: PassModel;
}

/** A step, ready for use. */
export interface StepModel {
  readonly name: StepName;
  /** Numbers its draws. */
  readonly number: number;
  /** Number of what its time counts as; -1 where that depends on what it is done for. */
  readonly activity: number;
  readonly manual: boolean;
  /** Who must be there for it to start, and while the instrument resumes after a closing. */
  readonly need: Need;
  readonly needResuming: Need;
  /** What it leaves drifting; null where it disturbs nothing. */
  readonly disturbs: DisturbanceKind | null;
  readonly success: number;
  /** The time is the same each time, and costs no draw. */
  readonly isFixed: boolean;
  /** Drift rate (nm/s) down to which it waits, at the strategy's pace of waiting; null: it takes its time. */
  readonly until: number | null;
  /** Microseconds below which a share u of tries lies, at the strategy's pace. */
  readonly timeAt: (u: number) => number;
}

/** Who must be there for a step. */
export function needOf({ need, needResuming }: StepModel, phase: Phase): Need {
  return phase === 'resuming' ? needResuming : need;
}

/** Drift of a workflow: the rate (nm/s) that a disturbance of each kind starts, and how it goes on. */
export interface DriftModel {
  readonly first: Readonly<Record<DisturbanceKind, { readonly rate: number; readonly spread: number } | null>>;
  readonly course: DriftCourse;
}

/** A strategy, ready to be run: everything that is the same in every replication. */
export interface CampaignModel {
  readonly workflow: WorkflowName;
  readonly settings: Scenario;
  readonly kinds: readonly KindModel[];
  readonly passes: readonly PassModel[];
  /** In plan order. */
  readonly images: readonly ImageModel[];
  /** Where each image stands in the plan, by its `drawn`. */
  readonly places: Uint32Array;
  readonly samples: readonly Sample[];
  /** How many regions all samples have together. */
  readonly regions: number;
  /** Those of each instrument, in plan order. */
  readonly shares: readonly (readonly ImageModel[])[];
  readonly bookings: WeeklyHours;
  readonly presence: WeeklyHours;
  /** Microseconds from Monday 00:00. */
  readonly start: number;
  /** End of the granted time, microseconds from Monday 00:00; null where none is granted. */
  readonly allocationEnd: number | null;
  /** Further moments at which campaigns are told as if they were cut, microseconds from Monday 00:00. */
  readonly cutsAt: readonly number[];
  /** Scans and reviews, and those that the workflow lacks, throw an Error when they are to be timed. */
  readonly steps: Readonly<Record<StepName, StepModel>>;
  /** Microseconds that a review takes. */
  readonly reviewTime: number;
  /** Chance that an exchange breaks what it mounts, at the strategy's pace of hands. */
  readonly mishandlingChance: number;
  /** Null where nothing drifts. */
  readonly drift: DriftModel | null;
  /** How long settling before a critical pass lasts at least: microseconds, or down to a rate (nm/s). */
  readonly criticalSettling: { readonly time: number; readonly until: number | null };
}

/** Compiles the settings of a strategy. */
export function compileModel(workflow: WorkflowName, settings: Scenario): CampaignModel {
  const planned = expandPlan(settings);
  const passes = passModels(settings, workflow, planned);
  const bookings = new WeeklyHours(settings.bookings.hours);
  const presence = new WeeklyHours(settings.operators.hours);
  const start = settings.bookings.start ?? bookings.opening(0);
  const images = planned.map(({ image, sample, region, pass }) => ({
    number: image,
    drawn: region * passes.length + pass,
    sample,
    region,
    pass: passes[pass],
  }));
  return {
    workflow,
    settings,
    passes,
    kinds: Object.entries(settings.tips).map(([name, kind], index) => ({
      name,
      index,
      radius: kind.radius,
      blunting: bluntingOf(kind),
      hazards: compileHazards(kind, passes, settings.pace),
    })),
    images,
    places: placesOf(images),
    samples: samplesOf(settings.plan),
    regions: regionCount(settings.plan),
    shares: Array.from({ length: settings.instruments }, (_, instrument) =>
      images.filter(({ number }) => planned[number].instrument === instrument),
    ),
    bookings,
    presence,
    start,
    allocationEnd: allocationEnd(settings, bookings, start),
    cutsAt: [],
    steps: stepModels(settings, workflow, presence.isAlways),
    reviewTime: microseconds(settings.noticing.review.time),
    mishandlingChance: mishandlingChance(settings, workflow),
    drift: driftModel(settings.workflows[workflow].drift),
    criticalSettling: criticalSettling(settings),
  };
}

function placesOf(images: readonly Pick<ImageModel, 'number' | 'drawn'>[]): Uint32Array {
  const places = new Uint32Array(images.length);
  for (const { number, drawn } of images) places[drawn] = number;
  return places;
}

/** The images of a region, one a pass. */
export function imagesOf({ images, places, passes }: CampaignModel, region: number): readonly ImageModel[] {
  return passes.map((_, pass) => images[places[region * passes.length + pass]]);
}

function passModels(
  settings: Scenario,
  workflow: WorkflowName,
  planned: readonly PlannedImage[],
): readonly PassModel[] {
  const lever = leverLoadOf(settings, workflow);
  const kinds = Object.keys(settings.tips);
  return settings.plan.passes.map((pass, index) => {
    const image = planned.find((candidate) => candidate.pass === index);
    if (image === undefined) throw new Error(`Pass ${pass.name} has no image in the plan.`);
    return {
      pass: index,
      scanTime: image.scanTime,
      path: image.path,
      load: pass.load,
      demand: demandOf(pass, image.speed, lever),
      kind: kinds.indexOf(pass.tip),
      critical: pass.critical,
      weight: pass.weight,
      duration: microseconds(image.scanTime),
    };
  });
}

/** The steps of the workflow, with cleaning, reconditioning, checking and reviewing beside them. */
function stepModels(
  settings: Scenario,
  workflow: WorkflowName,
  isAttended: boolean,
): Readonly<Record<StepName, StepModel>> {
  const { cleanFirst, recondition } = settings.rules;
  const { check } = settings.noticing;
  const fixed = (time: number, manual: boolean): Step => ({
    duration: { law: 'fixed', value: time },
    manual,
    success: 1,
  });
  const steps: Readonly<Partial<Record<StepName, Step>>> = {
    ...settings.workflows[workflow].steps,
    clean: fixed(cleanFirst.time, cleanFirst.manual),
    recondition: fixed(recondition.time, recondition.manual),
    ...(check === undefined ? {} : { check: fixed(check.time, check.manual) }),
  };
  return perStep((name) => {
    const step = steps[name];
    const activity = alwaysCountsAs(name);
    const manual = step?.manual ?? (name === 'review' && settings.noticing.review.by === 'operator');
    const needIn = (phase: Phase): Need => {
      if (manual) return 'hands';
      return isAttended || runsUnattended(name, phase, settings.bookings.unattended) ? 'nobody' : 'presence';
    };
    const { success, isFixed, until, timeAt } =
      step === undefined ? untimed(name) : timed(name, step, settings, workflow);
    return {
      // Written out, as spreading costs more than all the rest of this function.
      name,
      number: STEP_NUMBER[name],
      activity: activity === null ? -1 : ACTIVITY_NUMBER[activity],
      manual,
      need: needIn('measuring'),
      needResuming: needIn('resuming'),
      disturbs: disturbanceOf(name),
      success,
      isFixed,
      until,
      timeAt,
    };
  });
}

function mishandlingChance({ workflows, pace }: Scenario, workflow: WorkflowName): number {
  const { probability, paceExponent } = workflows[workflow].mishandling;
  return Math.min(1, probability * pow(pace.hands, paceExponent));
}

/** How a step's tries go. */
type Tries = Pick<StepModel, 'success' | 'isFixed' | 'until' | 'timeAt'>;

/** Hurried hands take 1/paceHands of the usual time, hurried waits 1/paceWait of it. */
function timed(name: StepName, step: Step, settings: Scenario, workflow: WorkflowName): Tries {
  const { duration, manual, until } = step;
  const secondsAt = compileDuration(duration);
  const pace = stepPace(name, manual, settings.pace);
  return {
    success: manual ? hastySuccess(step.success, settings, workflow) : step.success,
    isFixed: duration.law === 'fixed',
    until: until === undefined ? null : until * settings.pace.wait,
    timeAt: (u) => microseconds(secondsAt(u) / pace),
  };
}

/** A try of hurried hands fails paceHands^κ times as often, at most this often unless it fails more often at the usual pace. */
const MOST_FAILURES = 0.95;

function hastySuccess(success: number, { workflows, pace }: Scenario, workflow: WorkflowName): number {
  const growth = pow(pace.hands, workflows[workflow].haste?.successExponent ?? 0);
  const usual = 1 - success;
  return growth === 1 ? success : 1 - Math.min(Math.max(MOST_FAILURES, usual), usual * growth);
}

function driftModel(drift: Scenario['workflows'][WorkflowName]['drift']): DriftModel | null {
  if (drift === undefined) return null;
  const { handling = null, steady = 0 } = drift;
  const move = 'move' in drift ? (drift.move ?? null) : null;
  return {
    first: { handling, move },
    // What never disturbs decays in no time that matters.
    course: { decay: { handling: handling?.decay ?? 1, move: move?.decay ?? 1 }, steady },
  };
}

function criticalSettling({ rules, pace }: Scenario): CampaignModel['criticalSettling'] {
  const { time = 0, until } = rules.settleCritical ?? {};
  return { time: microseconds(time / pace.wait), until: until === undefined ? null : until * pace.wait };
}

/** A scan or review, whose time is known elsewhere, or a step that the workflow lacks. */
function untimed(name: StepName): Tries {
  return {
    success: 1,
    isFixed: true,
    until: null,
    timeAt: () => {
      throw new Error(`No time is known of the step ${name}.`);
    },
  };
}

function allocationEnd(settings: Scenario, bookings: WeeklyHours, start: number): number | null {
  const { allocation } = settings.bookings;
  if (allocation === undefined) return null;
  if (allocation.unit === 'hour') return bookings.afterOpen(start, microseconds(allocation.amount * 3600));
  return bookings.sessionEnd(start, allocation.amount);
}
