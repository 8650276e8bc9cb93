import { gridDistance, leastAccepted, type LeverLoad, resolvedShare, trackingOf } from './quality.js';
import type { Pass } from './settings.js';
import type { Tip } from './tip.js';

/** What the quality of an image depends on beside the tip. */
export interface ImageDemand {
  readonly pass: Pass;
  /** Factor of the tracking loop, the same for every image of a pass. */
  readonly tracking: number;
  readonly electrical: boolean;
  /** What must be resolved, and what the grid of pixels resolves; nanometres. */
  readonly needed: number;
  readonly grid: number;
  /** Least quality of a good image. */
  readonly accepted: number;
}

/** What a pass demands at a tip speed (nm/s), with what rides on the lever. */
export function demandOf(pass: Pass, speed: number, lever: LeverLoad | null): ImageDemand {
  return {
    pass,
    tracking: trackingOf(pass, speed, lever),
    electrical: pass.signal === 'electrical',
    needed: pass.neededResolution ?? Infinity,
    grid: gridDistance(pass),
    accepted: leastAccepted(pass),
  };
}

/** Quality of an image: resolution at the apex radius (nm), tracking, and what the tip's state leaves of it. */
export function imageQuality({ pass, needed, grid, tracking }: ImageDemand, radius: number, state: number): number {
  if (needed === Infinity) return tracking * state;
  return resolvedShare(needed, pass.dip, radius, grid) * tracking * state;
}

/** Quality with which an image would start on a tip as it is now. */
export function startingQuality(demand: ImageDemand, tip: Tip): number {
  return imageQuality(demand, tip.radius, tip.stateNow(demand.electrical));
}

/** Whether an image of this quality is good. */
export function isGood(demand: ImageDemand, quality: number): boolean {
  return quality >= demand.accepted;
}
