import { exp, expm1, gammainc, gammaincinv, ln, log1p } from '../elementary.js';
import type { LifeLaw } from './law.js';

/** mean = shape · scale, in units of exposure. */
export interface Gamma {
  readonly law: 'gamma';
  readonly shape: number;
  readonly scale: number;
}

/** H(x) = -ln(1 - P(shape, x / scale)), P the regularised lower incomplete gamma function; each side from its small tail. */
export function gamma({ shape, scale }: Gamma): LifeLaw {
  return {
    cumulativeHazard(exposure) {
      const x = exposure / scale;
      const below = gammainc(x, shape, true, false);
      return below < 0.5 ? -log1p(-below) : -ln(gammainc(x, shape, true, true));
    },
    exposureAt(hazard) {
      const x = hazard < Math.LN2 ? gammaincinv(-expm1(-hazard), shape, false) : gammaincinv(exp(-hazard), shape, true);
      return scale * x;
    },
  };
}
