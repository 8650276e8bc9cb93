import { pow } from '../elementary.js';
import { distribution, type LifeDistribution, type ValuesOf } from './distribution.js';
import { solveIncreasing } from './solve.js';
import { SHAPE, weibull } from './weibull.js';

const TERM = {
  shape: SHAPE,
  scale: { is: 'exposure', description: 'Exposure by which 63.2 % would have failed of this term alone' },
} as const;

/** Hazards side by side: H(x) = Σ (x / scale_i)^shape_i (additive Weibull model, Xie and Lai 1996, for two terms). */
export function additiveWeibull(terms: readonly ValuesOf<typeof TERM>[]): LifeDistribution {
  const parts = terms.map((term) => weibull.compile(term));
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

/** Early failures and wear-out: two Weibull hazards, one falling and one rising, that act at once. */
export const bathtub = distribution({
  title: 'bathtub',
  parameters: { early: TERM, late: TERM },
  compile: ({ early, late }) => additiveWeibull([early, late]),
});
