import { log1p } from '../elementary.js';
import { distribution } from './distribution.js';

/** H(x) = -ln(1 - p) · x: the same chance p in every unit of exposure. Never at p = 0, at once at p = 1. */
export const probability = distribution({
  title: 'constant probability',
  parameters: {
    perUnit: {
      is: 'probability',
      description: 'Probability per unit of exposure; one image, approach, millimetre or hour',
    },
  },
  compile({ perUnit }) {
    const rate = -log1p(-perUnit);
    return {
      cumulativeHazard: (exposure) => (exposure === 0 ? 0 : exposure * rate),
      exposureAt: (hazard) => (hazard === 0 ? 0 : hazard / rate),
    };
  },
});
