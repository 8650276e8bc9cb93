import { exp, ln } from '../chance/elementary.js';
import type { DistributionParameter } from './distributions.js';

/** A value on the scale on which it is free. */
export function toFree({ free }: DistributionParameter, value: number): number {
  return free === 'log' ? ln(value) : ln(ln(value));
}

/** The value of a free number. */
export function fromFree({ free }: DistributionParameter, number: number): number {
  return free === 'log' ? exp(number) : exp(exp(number));
}
