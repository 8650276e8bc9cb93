import { pow } from '../elementary.js';
import type { LifeLaw } from './law.js';

export interface WeibullTerm {
  /** Below 1 the hazard falls with exposure, above 1 it rises. */
  readonly shape: number;
  /** Exposure by which 63.2 % have failed. */
  readonly scale: number;
}

export interface Weibull extends WeibullTerm {
  readonly law: 'weibull';
}

/** H(x) = (x / scale)^shape. */
export function weibull({ shape, scale }: WeibullTerm): LifeLaw {
  return {
    cumulativeHazard: (exposure) => pow(exposure / scale, shape),
    exposureAt: (hazard) => scale * pow(hazard, 1 / shape),
  };
}
