import type { LifeLaw } from './law.js';

/** Constant hazard. mean: mean life, in units of exposure. */
export interface Exponential {
  readonly law: 'exponential';
  readonly mean: number;
}

/** H(x) = x / mean. */
export function exponential({ mean }: Exponential): LifeLaw {
  return {
    cumulativeHazard: (exposure) => exposure / mean,
    exposureAt: (hazard) => hazard * mean,
  };
}
