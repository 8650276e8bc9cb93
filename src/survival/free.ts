import { exp, ln } from '../chance/elementary.js';
import type { LawParameter } from './laws.js';

/** A value on the scale on which it is free. */
export function toFree({ free }: LawParameter, value: number): number {
  return free === 'log' ? ln(value) : ln(ln(value));
}

/** The value of a free number. */
export function fromFree({ free }: LawParameter, number: number): number {
  return free === 'log' ? exp(number) : exp(exp(number));
}
