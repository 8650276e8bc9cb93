import type { Course } from '../kernel/simulation.js';
import type { Activity } from './activities.js';
import type { WentBecause } from './ledger.js';
import type { ImageModel } from './model.js';
import type { ChipState } from './state.js';
import type { StepName } from './steps.js';

/** A step needs the tip at the surface, before or after the region has been found again. */
export type SurfaceNeed = 'before finding' | 'after finding';

/** One way of working at one instrument. A third one is one more file, one line in `workflows.ts` and one in the schema. */
export interface Workflow {
  /** What a change of tip counts as. */
  readonly changing: Activity;
  /** What a change of tip begins with where the tip is away from the surface. */
  readonly firstStep: StepName;
  /** How the region is found again on a later visit. */
  readonly returning: StepName;
  /** Steps that need the tip at the surface, and whether they come before the region has been found again. */
  readonly atSurface: ReadonlyMap<StepName, SurfaceNeed>;
  /** Everything up to the set-up, with the first tip ready to be mounted. */
  start(due: ImageModel): Course;
  /** Another tip for the image that is due, at its region; `why` the one on is taken off. */
  changeTip(due: ImageModel, why: WentBecause): Course;
  /** The chip on the stage; null where there is no such thing. */
  readonly chipState: ChipState | null;
  /** Chance that an approach, or the end of a change of sample, loses the specimen. */
  readonly specimenLoss: number;
  /** Whether the sample has still to be made ready before it is put on for the first time. */
  isToPrepare(sample: number): boolean;
  /** Makes the sample ready before it is put on for the first time. */
  prepareSample(sample: number): Course;
  /** What follows once another sample is put on, up to its first locate. */
  sampleChanged(): Course;
  /** Whether a specimen is left, or will come, to replace one that is lost. */
  hasSpecimen(): boolean;
  /** Another specimen of the sample, ready for its first region. */
  replaceSpecimen(sample: number): Course;
  /** Samples that are made ready. */
  readonly prepared: readonly number[];
}
