import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clopperPearson, pairedProportions } from '../../src/statistics/proportion.js';

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

  it('of pairs is the published one, and stays within -1 to 1', () => {
    // 26 of 48 gained, 4 lost: 0.44 with a standard error of 0.0945, as the authors' own program has it (statpsych, ci.prop.ps).
    const { low, high } = pairedProportions(26, 4, 48, 0.95);
    expect(low).toBeCloseTo(0.2548067, 7);
    expect(high).toBeCloseTo(0.6251933, 7);
    fc.assert(
      fc.property(fc.nat(300), fc.nat(300), fc.nat(300), fc.constantFrom(0.95, 0.9999), (up, down, alike, level) => {
        const trials = up + down + alike;
        const ends = pairedProportions(up, down, trials, level);
        expect(ends.low).toBeGreaterThanOrEqual(-1);
        expect(ends.high).toBeLessThanOrEqual(1);
        expect(ends.low).toBeLessThan(ends.high);
        expect(pairedProportions(down, up, trials, level).low).toBeCloseTo(-ends.high, 12);
      }),
      { seed: 7, numRuns: 500 },
    );
    const alike = pairedProportions(0, 0, 200, 0.95);
    expect(alike.low).toBeLessThan(0);
    expect(alike.high).toBeGreaterThan(0);
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
