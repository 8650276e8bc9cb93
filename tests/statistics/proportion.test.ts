import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clopperPearson } from '../../src/statistics/proportion.js';

describe('the interval of a proportion', () => {
  it('encloses the share, mirrors under failure, and never leaves 0 to 1', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 20_000 }),
        fc.nat(),
        fc.constantFrom(0.9, 0.95, 0.999),
        (trials, some, level) => {
          const successes = some % (trials + 1);
          const { low, high } = clopperPearson(successes, trials, level);
          expect(low).toBeGreaterThanOrEqual(0);
          expect(high).toBeLessThanOrEqual(1);
          expect(low).toBeLessThanOrEqual(successes / trials);
          expect(high).toBeGreaterThanOrEqual(successes / trials);
          expect(clopperPearson(trials - successes, trials, level).low).toBeCloseTo(1 - high, 12);
        },
      ),
      { seed: 6, numRuns: 500 },
    );
  });

  it('has closed forms where nothing or everything succeeded', () => {
    expect(clopperPearson(0, 10, 0.95).high).toBeCloseTo(1 - 0.025 ** 0.1, 14);
    expect(clopperPearson(10, 10, 0.95).low).toBeCloseTo(0.025 ** 0.1, 14);
  });

  it('refuses what is no proportion', () => {
    for (const [successes, trials] of [
      [0, 0],
      [-1, 5],
      [6, 5],
      [NaN, 5],
    ]) {
      expect(() => clopperPearson(successes, trials, 0.95)).toThrow(RangeError);
    }
  });
});
