import { log1p } from '../elementary.js';
import type { LifeLaw } from './law.js';

/** perUnit: probability of the event in each unit of exposure, 0 to 1. */
export interface PerUnit {
  readonly law: 'probability';
  readonly perUnit: number;
}

/** H(x) = -ln(1 - p) · x: the same chance p in every unit. Never at p = 0, at once at p = 1. */
export function probability({ perUnit }: PerUnit): LifeLaw {
  const rate = -log1p(-perUnit);
  return {
    cumulativeHazard: (exposure) => (exposure === 0 ? 0 : exposure * rate),
    exposureAt: (hazard) => (hazard === 0 ? 0 : hazard / rate),
  };
}
