import { describe, expect, it } from 'vitest';
import { leadTimeOf } from '../../src/study/lead-time.js';
import { plainModel } from '../support/plain-scenario.js';

const HOUR = 3600;

/** An experiment that starts then, with operators there in those hours. */
function startingAt(start: string, operators: string) {
  return plainModel({ regions: 1, bookings: { hours: 'always', start }, operators: { hours: operators } });
}

/** A hundred campaigns, nine in ten of which need no more than so many hours. */
function benchTimes(hours: number): Float64Array {
  return Float64Array.from({ length: 100 }, (_, i) => (i < 90 ? (hours * HOUR * (i + 1)) / 90 : 1000 * HOUR));
}

describe('the lead time of specimens (MODEL.md 6)', () => {
  it('counts the time that nine campaigns in ten need back from the start, in the hours in which operators are there', () => {
    const found = leadTimeOf(startingAt('Fr 09:00', 'Mo-Fr 09:00-17:00'), benchTimes(3));
    expect(found).toEqual({ benchTime: 3 * HOUR, beginBy: 'Thu 14:00' });
    expect(leadTimeOf(startingAt('Fr 11:00', 'Mo-Fr 09:00-17:00'), benchTimes(3))?.beginBy).toBe('Thu 16:00');
    expect(leadTimeOf(startingAt('Tu 09:00', 'always'), benchTimes(10))?.beginBy).toBe('Mon 23:00');
  });

  it('goes back into earlier weeks, and says which', () => {
    const office = startingAt('Mo 09:00', 'Mo-Fr 09:00-17:00');
    expect(leadTimeOf(office, benchTimes(1.5))?.beginBy).toBe('Fri 15:30 the week before');
    expect(leadTimeOf(office, benchTimes(44))?.beginBy).toBe('Fri 13:00, 2 weeks before');
  });

  it('is rounded down to a minute, so that nobody begins too late', () => {
    expect(leadTimeOf(startingAt('Fr 09:00', 'Mo-Fr 09:00-17:00'), benchTimes(3 + 1 / 3600))?.beginBy).toBe(
      'Thu 13:59',
    );
  });

  it('is none where nothing is prepared before the start', () => {
    expect(leadTimeOf(startingAt('Fr 09:00', 'always'), new Float64Array(100))).toBeNull();
  });
});
