import type { ImageModel } from './model.js';
import type { MountedTip, Remedy } from './replacing.js';

/** What someone is asked before a take. */
export interface Situation {
  /** Microseconds. */
  readonly time: number;
  readonly instrument: number;
  readonly mounted: MountedTip;
  readonly due: ImageModel;
  /** Takes that this image has had. */
  readonly takes: number;
  /** What the replacement rules say. */
  readonly ruled: Remedy;
}

/** What someone is asked after a failed check. */
export interface Suspicion {
  /** Microseconds. */
  readonly time: number;
  readonly instrument: number;
  readonly mounted: MountedTip;
  /** Images in doubt since the tip last passed a check, in the order in which they were taken; at least one. */
  readonly images: readonly ImageModel[];
}

/** Someone who decides about the tip before each take, in place of the replacement rules. */
export interface Advisor {
  /** Whether the images in doubt are taken again; those that are kept all the same are no more in doubt. */
  retakes(suspicion: Suspicion): boolean;
  /** What is to be done; asked again after it has been done, and once more where the scan had to wait. */
  remedy(situation: Situation): Remedy;
}
