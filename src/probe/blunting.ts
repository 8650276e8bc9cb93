import { cbrt, sin } from '../chance/elementary.js';
import type { TipKind } from './settings.js';

/**
 * How the apex grows with the sliding path. The state is the cube of the apex radius (nm³), because worn volume adds up
 * in it: a law says how much one millimetre at one nanonewton adds. Another law is one more function here and its choice in `bluntingOf`.
 */
export interface BluntingLaw {
  /** Median and geometric standard deviation over tips of the wear coefficient (nm³ per nN and mm). */
  readonly coefficient: { readonly median: number; readonly geometricSd: number };
  /** Growth of the cubed radius (nm³) for a wear coefficient, a load (nN) and a path (mm). */
  growth(coefficient: number, load: number, path: number): number;
}

/** GPa and nanonewton-millimetres: K/H in GPa⁻¹ becomes nm³/(nN·mm) by this factor (1 m²/N = 1e15 nm³/(nN·mm)). */
const PER_GIGAPASCAL = 1e6;

/**
 * Volume that a cone of half-angle θ (degrees), capped by a tangent sphere, misses of its sharp apex, per R³:
 * c(θ) = π·(1 − sin θ)² / (3·sin θ). Derived for a sphere tangent to the cone.
 */
export function missingVolumeFactor(halfAngle: number): number {
  const s = sin((halfAngle * Math.PI) / 180);
  return (Math.PI * (1 - s) * (1 - s)) / (3 * s);
}

/** Archard, J. Appl. Phys. 24, 981 (1953): V = k·F·s, so R³ grows by k·F·s / c(θ). */
function archard(halfAngle: number, median: number, geometricSd: number): BluntingLaw {
  const c = missingVolumeFactor(halfAngle);
  return { coefficient: { median, geometricSd }, growth: (coefficient, load, path) => (coefficient * load * path) / c };
}

/** The blunting law of a tip kind, or null where the kind does not blunt. */
export function bluntingOf(kind: TipKind): BluntingLaw | null {
  if (kind.blunting === undefined) return null;
  const { halfAngle, wear } = kind.blunting;
  const median = 'coefficient' in wear ? wear.coefficient : (wear.archardK / wear.hardness) * PER_GIGAPASCAL;
  return archard(halfAngle, median, wear.geometricSd);
}

/** The radius (nm) of a cubed radius (nm³). */
export function cubeRoot(cube: number): number {
  return cbrt(cube);
}
