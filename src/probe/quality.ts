import type { Demand, Scan } from './settings.js';

/** What an image of the pass must resolve, and on which grid it is sampled. */
export type ResolutionDemand = Pick<Scan, 'size' | 'lines' | 'pixels'> & Pick<Demand, 'neededResolution' | 'dip'>;

/**
 * Least distance (nm) at which two equal sharp features are resolved by a tip of apex radius `radius` (nm), where the
 * smallest dip between them that the noise lets one see is `dip` (nm): d = 2·√(2·R·Δz).
 * Bustamante & Keller, Physics Today 48(12), 32 (1995).
 */
export function resolutionDistance(radius: number, dip: number): number {
  return 2 * Math.sqrt(2 * radius * dip);
}

/**
 * Share of the needed resolution that a tip of this apex radius (nm) gives, 0 to 1: needed distance over the largest of
 * the tip's own distance and two pixels either way; 1 where the pass needs none, the tip left out where it names no dip.
 */
export function resolutionQuality(demand: ResolutionDemand, radius: number): number {
  if (demand.neededResolution === undefined) return 1;
  return resolvedShare(demand.neededResolution, demand.dip, radius, gridDistance(demand));
}

/** As `resolutionQuality`, with what the grid resolves worked out. */
export function resolvedShare(needed: number, dip: number | undefined, radius: number, grid: number): number {
  const tip = dip === undefined ? 0 : resolutionDistance(radius, dip);
  return Math.min(1, needed / Math.max(tip, grid));
}

/** Two pixels either way (nm). */
export function gridDistance({ size, pixels, lines }: ResolutionDemand): number {
  return (2 * size) / Math.min(pixels ?? lines, lines);
}

/**
 * Amplitude that a first-order loop of bandwidth `bandwidth` (Hz) keeps of features `neededResolution` (nm) apart at tip
 * speed `speed` (nm/s), 0 to 1: 1/√(1 + (v/(d·f))²), the transfer function of a first-order low-pass. 1 where either is not given.
 */
export function trackingQuality(
  speed: number,
  neededResolution: number | undefined,
  bandwidth: number | undefined,
): number {
  if (neededResolution === undefined || bandwidth === undefined) return 1;
  const ratio = speed / (neededResolution * bandwidth);
  return 1 / Math.sqrt(1 + ratio * ratio);
}

/** The specimen on the lever and the lever's effective mass, in nanograms. */
export interface LeverLoad {
  readonly mass: number;
  readonly effectiveMass: number;
}

/** `trackingQuality` of a pass at a tip speed (nm/s), with what rides on the lever. */
export function trackingOf(pass: Demand, speed: number, lever: LeverLoad | null): number {
  const { trackingBandwidth: bandwidth } = pass;
  const loaded =
    bandwidth === undefined || lever === null ? bandwidth : loadedBandwidth(bandwidth, lever.mass, lever.effectiveMass);
  return trackingQuality(speed, pass.neededResolution, loaded);
}

/** Least quality that a pass accepts, to 1e-12, so that a quality of exactly that is good in any arithmetic. */
export function leastAccepted(pass: Demand): number {
  return pass.accept - 1e-12;
}

export function isAccepted(pass: Demand, quality: number): boolean {
  return quality >= leastAccepted(pass);
}

/**
 * Bandwidth (Hz) of a loop whose lever carries an added mass: it falls as the resonance does, f = f0/√(1 + m/m*), with
 * both masses in one unit. Cleveland et al., Rev. Sci. Instrum. 64, 403 (1993).
 */
export function loadedBandwidth(bandwidth: number, mass: number, effectiveMass: number): number {
  return bandwidth / Math.sqrt(1 + mass / effectiveMass);
}
