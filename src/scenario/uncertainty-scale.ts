import { exp, expm1, ln, log1p } from '../chance/elementary.js';
import { normalQuantile } from '../chance/normal.js';
import type { Scale } from './schema/uncertainty.js';

/** Standard deviations from the middle of a normal to either end of its central 95 %. */
export const CENTRAL_DEVIATES = normalQuantile(0.975);

/** A value on the scale on which its not-knowing is normal; not finite where that scale does not reach. */
export function ontoScale(scale: Scale, value: number): number {
  switch (scale) {
    case 'ln':
      return ln(value);
    case 'ln ln':
      return ln(ln(value));
    case 'ln hazard':
      return ln(-log1p(-value));
    case 'plain':
      return value;
  }
}

/** The value at a place of its scale. */
export function fromScale(scale: Scale, place: number): number {
  switch (scale) {
    case 'ln':
      return exp(place);
    case 'ln ln':
      return exp(exp(place));
    case 'ln hazard':
      return -expm1(-exp(place));
    case 'plain':
      return place;
  }
}
