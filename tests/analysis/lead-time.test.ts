import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { budget } from '../../src/studies/budget/budget.js';
import { compare } from '../../src/studies/compare/compare.js';
import { leadTimeOf } from '../../src/analysis/lead-time.js';
import { previewScenario } from '../../src/analysis/preview.js';
import { loadedFrom } from '../support/known-break-even.js';
import { plainModel } from '../support/scene.js';

const HOUR = 3600;

/** An experiment that starts then, with operators there in those hours. */
function startingAt(start: string, operators: string) {
  return plainModel({ regions: 1, bookings: { hours: 'always', start }, operators: { hours: operators } });
}

/** A hundred campaigns, 90 % of which need no more than so many hours. */
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

  it('is told by compare, budget and preview alike', () => {
    const scenario = loadedFrom(readFileSync(new URL('../support/sixty-images.yaml', import.meta.url), 'utf8'));
    const record = { file: 'sixty-images.yaml', sha256: '0', toolVersion: '0', replications: 200 };
    // Without the register, whose range limits cost most of the time of a comparison.
    const compared = compare({ ...scenario, register: [] }, record).summary;
    const [told, asked, previewed] = [compared, budget(scenario, record), previewScenario(scenario)].map(
      ({ strategies }) => strategies.map(({ leadTime }) => leadTime),
    );
    expect(asked).toEqual(told);
    for (const [swap, hop] of [told, previewed]) {
      expect(swap).toBeNull();
      // Preparing takes 60 to 360 min a try, of which four in five succeed; the start is on a Monday.
      expect(hop?.beginBy).toMatch(/^(Wed|Thu|Fri) \d\d:\d\d the week before$/u);
      expect(hop?.benchTime).toBeGreaterThan(3 * HOUR);
    }
  });
});
