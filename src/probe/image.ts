import { isAccepted, type LeverLoad, resolutionQuality, trackingOf } from '../scenario/quality.js';
import type { Pass } from '../scenario/schema/scenario.js';
import type { Tip } from './tip.js';

/** What the quality of an image depends on beside the tip. */
export interface ImageDemand {
  readonly pass: Pass;
  /** Factor of the tracking loop, the same for every image of a pass. */
  readonly tracking: number;
  readonly electrical: boolean;
}

/** What a pass demands at a tip speed (nm/s), with what rides on the lever. */
export function demandOf(pass: Pass, speed: number, lever: LeverLoad | null): ImageDemand {
  return { pass, tracking: trackingOf(pass, speed, lever), electrical: pass.signal === 'electrical' };
}

/** Quality of an image: resolution at the apex radius (nm), tracking, and what the tip's state leaves of it. */
export function imageQuality(demand: ImageDemand, radius: number, state: number): number {
  return resolutionQuality(demand.pass, radius) * demand.tracking * state;
}

/** Quality with which an image would start on a tip as it is now. */
export function startingQuality(demand: ImageDemand, tip: Tip): number {
  return imageQuality(demand, tip.radius, tip.stateNow(demand.electrical));
}

/** Whether an image of this quality is good. */
export function isGood(demand: ImageDemand, quality: number): boolean {
  return isAccepted(demand.pass, quality);
}
