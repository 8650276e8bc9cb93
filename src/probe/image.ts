import { loadedBandwidth, resolutionQuality, trackingQuality } from '../scenario/quality.js';
import type { Pass } from '../scenario/schema/scenario.js';
import type { Tip } from './tip.js';

/** What the quality of an image depends on beside the tip. */
export interface ImageDemand {
  readonly pass: Pass;
  /** Factor of the tracking loop, the same for every image of a pass. */
  readonly tracking: number;
  readonly electrical: boolean;
}

/** The specimen on the lever and the lever's effective mass, in nanograms; null where the sample does not ride on a lever. */
export interface LeverLoad {
  readonly mass: number;
  readonly effectiveMass: number;
}

/** What a pass demands at a tip speed (nm/s), with the specimen's mass on the lever. */
export function demandOf(pass: Pass, speed: number, lever: LeverLoad | null): ImageDemand {
  const bandwidth =
    pass.trackingBandwidth === undefined || lever === null
      ? pass.trackingBandwidth
      : loadedBandwidth(pass.trackingBandwidth, lever.mass, lever.effectiveMass);
  return {
    pass,
    tracking: trackingQuality(speed, pass.neededResolution, bandwidth),
    electrical: pass.signal === 'electrical',
  };
}

/** Quality of an image: resolution at the apex radius (nm), tracking, and what the tip's state leaves of it. */
export function imageQuality(demand: ImageDemand, radius: number, state: number): number {
  return resolutionQuality(demand.pass, radius) * demand.tracking * state;
}

/** Quality with which an image would start on a tip as it is now. */
export function startingQuality(demand: ImageDemand, tip: Tip): number {
  return imageQuality(demand, tip.radius, tip.stateNow(demand.electrical));
}

/** Good at or above accept, to 1e-12, so that a quality of exactly the accepted value is good in any arithmetic. */
export function isGood(demand: ImageDemand, quality: number): boolean {
  return quality >= demand.pass.accept - 1e-12;
}
