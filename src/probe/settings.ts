import type { Life } from '../chance/life.js';
import type { CauseSettings } from './causes.js';

/** In which unit the life of a tip is counted: images, millimetres of path, hours of scanning, approaches. */
export const EXPOSURE_UNITS = ['image', 'distance', 'hour', 'approach'] as const;
export type ExposureUnit = (typeof EXPOSURE_UNITS)[number];

/** How much a strategy hurries; 1 is the usual pace. */
export interface Pace {
  readonly scan: number;
  readonly hands: number;
  readonly wait: number;
}

/** A hazard as a scenario sets it: life and exponents in the unit of its exposure, loads in nanonewtons. */
export type Hazard = HazardLife & CauseSettings;

/** What all hazards have. */
export interface HazardLife {
  readonly per: ExposureUnit;
  readonly life: Life;
  readonly acceleration: {
    readonly pace: number;
    readonly load: number;
    readonly hands?: number | undefined;
    readonly referenceLoad: number;
  };
}

/** Wear of a tip: hardness in gigapascals, the coefficient in cubic nanometres per nanonewton and millimetre. */
export type Wear = { readonly geometricSd: number } & (
  { readonly coefficient: number } | { readonly archardK: number; readonly hardness: number }
);

/** A tip kind as a scenario sets it: lengths in nanometres, angles in degrees. */
export interface TipKind {
  readonly hazards: readonly Hazard[];
  readonly blunting?: { readonly halfAngle: number; readonly wear: Wear } | undefined;
}

/** A scan as a scenario sets it: lengths in nanometres, frequencies in hertz, loads in nanonewtons. */
export interface Scan {
  readonly size: number;
  readonly lines: number;
  readonly pixels?: number | undefined;
  readonly lineRate: number;
  readonly load: number;
}

/** What an image of a pass must show. Lengths in nanometres, frequencies in hertz. */
export interface Demand {
  readonly neededResolution?: number | undefined;
  readonly dip?: number | undefined;
  readonly trackingBandwidth?: number | undefined;
  readonly driftTolerance?: number | undefined;
  readonly accept: number;
}

/** One pass of a plan, as a tip and its images meet it. */
export interface Pass extends Scan, Demand {
  readonly name: string;
  readonly signal: 'topography' | 'electrical';
}
