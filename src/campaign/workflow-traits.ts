import type { Activity } from './activities.js';
import type { StepName, SurfaceNeed } from './steps.js';

/** What is particular to a workflow beside its procedures. */
export interface WorkflowTraits {
  /** What a change of tip counts as. */
  readonly changing: Activity;
  /** What a change of tip begins with where the tip is away from the surface. */
  readonly firstStep: StepName;
  /** How the region is found again on a later visit. */
  readonly returning: StepName;
  /** Steps that need the tip at the surface, and whether they come before the region has been found again. */
  readonly atSurface: Readonly<Partial<Record<StepName, SurfaceNeed>>>;
  /** Tips come on chips, and the specimen rides on a lever. */
  readonly hasChips: boolean;
  /** Chance that an approach, or the end of a change of sample, loses the specimen. */
  readonly specimenLoss: number;
}
