import { pow } from '../elementary.js';
import type { LifeLaw } from './law.js';
import { solveIncreasing } from './solve.js';
import { type WeibullTerm, weibull } from './weibull.js';

/** Early deaths and wearing out: a term of falling and one of rising hazard. */
export interface Bathtub {
  readonly law: 'bathtub';
  readonly early: WeibullTerm;
  readonly late: WeibullTerm;
}

/** Hazards side by side: H(x) = Σ (x / scale_i)^shape_i (additive Weibull model, Xie and Lai 1996, for two terms). */
export function additiveWeibull(terms: readonly WeibullTerm[]): LifeLaw {
  const parts = terms.map(weibull);
  const cumulativeHazard = (exposure: number) => parts.reduce((sum, part) => sum + part.cumulativeHazard(exposure), 0);
  const hazardRate = (exposure: number) =>
    terms.reduce((sum, { shape, scale }) => sum + (shape / scale) * pow(exposure / scale, shape - 1), 0);
  const soonest = (hazard: number) => parts.reduce((least, part) => Math.min(least, part.exposureAt(hazard)), Infinity);
  return {
    cumulativeHazard,
    exposureAt(hazard) {
      if (hazard === 0) return 0;
      // No term has used more than its equal share at the lower end, and one alone has used it all at the upper.
      return solveIncreasing(cumulativeHazard, hazardRate, hazard, soonest(hazard / terms.length), soonest(hazard));
    },
  };
}

/** Two Weibull hazards, early and late, that act at once. */
export function bathtub({ early, late }: Bathtub): LifeLaw {
  return additiveWeibull([early, late]);
}
