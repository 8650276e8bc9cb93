import { type Lognormal, lognormal } from '../chance/scores.js';
import { pow } from '../chance/elementary.js';
import { microseconds } from '../kernel/clock.js';
import { WeeklyHours } from '../kernel/hours.js';
import type { DisturbanceKind, DriftCourse } from '../probe/drift.js';
import { compileHazards } from '../probe/hazards.js';
import { demandOf, type ImageDemand } from '../probe/image.js';
import type { KindModel } from '../probe/kind-model.js';
import { bluntingOf } from '../probe/blunting.js';
import { expandPlan, leverLoadOf, type PlannedImage } from '../scenario/plan.js';
import { regionCount, type Sample, samplesOf } from '../scenario/samples.js';
import type { ScanLoad } from '../probe/scan-load.js';
import type { Scenario, WorkflowName } from '../scenario/schema/scenario.js';
import { untilOf } from '../scenario/schema/steps.js';
import type { Supply } from '../scenario/samples.js';
import { suppliesOf } from './supplies.js';
import { type StepModel, stepModels } from './step-model.js';
import type { StepName } from './steps.js';

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
  /** That takes it. */
  readonly instrument: number;
  readonly pass: PassModel;
}

/** Drift of a workflow: the rate (nm/s) that a disturbance of each kind starts, and how it goes on. */
export interface DriftModel {
  readonly first: Readonly<Record<DisturbanceKind, Lognormal | null>>;
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
  /** What is limited, by the name under which it is taken; specimens, which always are, last. */
  readonly supplies: readonly (readonly [string, Supply])[];
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
  const steps = stepModels(settings, workflow, presence.isAlways);
  const images = planned.map(({ image, sample, region, instrument, pass }) => ({
    number: image,
    drawn: region * passes.length + pass,
    sample,
    region,
    instrument,
    pass: passes[pass],
  }));
  return {
    workflow,
    settings,
    passes,
    kinds: Object.entries(settings.tips).map(([name, kind], index) => ({
      name,
      index,
      radius: lognormal(kind.radius.nominal, kind.radius.geometricSd),
      ...wearOf(kind),
      hazards: compileHazards(kind, passes, settings.pace),
    })),
    images,
    places: placesOf(images),
    samples: samplesOf(settings.plan),
    supplies: suppliesOf(settings),
    regions: regionCount(settings.plan),
    shares: Array.from({ length: settings.instruments }, (_, instrument) =>
      images.filter((image) => image.instrument === instrument),
    ),
    bookings,
    presence,
    start,
    allocationEnd: allocationEnd(settings, bookings, start),
    cutsAt: [],
    steps,
    reviewTime: microseconds(settings.noticing.review.time),
    mishandlingChance: mishandlingChance(settings, workflow),
    drift: driftModel(settings.workflows[workflow].drift),
    criticalSettling: criticalSettling(settings),
  };
}

function wearOf(kind: Scenario['tips'][string]): Pick<KindModel, 'blunting' | 'wear'> {
  const blunting = bluntingOf(kind);
  const { median, geometricSd } = blunting?.coefficient ?? { median: 0, geometricSd: 1 };
  return { blunting, wear: lognormal(median, geometricSd) };
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

function mishandlingChance({ workflows, pace }: Scenario, workflow: WorkflowName): number {
  const { probability, paceExponent } = workflows[workflow].mishandling;
  return Math.min(1, probability * pow(pace.hands, paceExponent));
}

function driftModel(drift: Scenario['workflows'][WorkflowName]['drift']): DriftModel | null {
  if (drift === undefined) return null;
  const { handling = null, steady = 0 } = drift;
  const move = 'move' in drift ? (drift.move ?? null) : null;
  return {
    first: { handling: firstRate(handling), move: firstRate(move) },
    // What never disturbs decays in no time that matters.
    course: { decay: { handling: handling?.decay ?? 1, move: move?.decay ?? 1 }, steady },
  };
}

function firstRate(first: { readonly rate: number; readonly geometricSd: number } | null): Lognormal | null {
  return first === null ? null : lognormal(first.rate, first.geometricSd);
}

function criticalSettling({ rules, pace }: Scenario): CampaignModel['criticalSettling'] {
  const wait = rules.settleCritical ?? { fixed: 0 };
  const until = untilOf(wait);
  const time = 'fixed' in wait ? wait.fixed : 0;
  return { time: microseconds(time / pace.wait), until: until === undefined ? null : until * pace.wait };
}

function allocationEnd(settings: Scenario, bookings: WeeklyHours, start: number): number | null {
  const { allocation } = settings.bookings;
  if (allocation === undefined) return null;
  if (allocation.unit === 'hour') return bookings.afterOpen(start, microseconds(allocation.amount * 3600));
  return bookings.sessionEnd(start, allocation.amount);
}
