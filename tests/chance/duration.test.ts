import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  compileDuration,
  type Duration,
  durationAt,
  leastDuration,
  meanDuration,
  secondsAt,
} from '../../src/chance/duration.js';

const usual: Duration = { distribution: 'lognormal', median: 600, p90: 1500 };
const triangle: Duration = { distribution: 'triangular', min: 10, mode: 20, max: 60 };

/** Mean over the quantiles at the middles of equal shares: the mean of the distribution, but for the coarseness of the shares. */
function meanOverQuantiles(duration: Duration, shares = 200_000): number {
  let sum = 0;
  for (let i = 0; i < shares; i += 1) sum += durationAt(duration, (i + 0.5) / shares);
  return sum / shares;
}

describe('a duration', () => {
  it('is the same at each try where it is fixed', () => {
    const fixed: Duration = { distribution: 'fixed', value: 42 };
    expect([durationAt(fixed, 0.01), durationAt(fixed, 0.99), meanDuration(fixed), leastDuration(fixed)]).toEqual([
      42, 42, 42, 42,
    ]);
  });

  it('has the median and the 90th percentile that it was given', () => {
    expect(durationAt(usual, 0.5)).toBeCloseTo(600, 10);
    expect(durationAt(usual, 0.9) / 1500).toBeCloseTo(1, 9);
    expect(leastDuration(usual)).toBe(0);
  });

  it('is fixed where median and 90th percentile agree, or the median is nothing', () => {
    for (const value of [0, 300]) {
      const fixed: Duration = { distribution: 'lognormal', median: value, p90: value };
      expect([durationAt(fixed, 0.01), durationAt(fixed, 0.99), meanDuration(fixed), leastDuration(fixed)]).toEqual([
        value,
        value,
        value,
        value,
      ]);
    }
  });

  it('lies within its ends where it is triangular, with the share below the mode by area', () => {
    expect(durationAt(triangle, 1e-15)).toBeCloseTo(10, 5);
    expect(durationAt(triangle, 1 - 2 ** -53)).toBeCloseTo(60, 5);
    expect(durationAt(triangle, 10 / 50)).toBeCloseTo(20, 10);
    expect(durationAt(triangle, 0.1)).toBeCloseTo(10 + Math.sqrt(0.1 * 50 * 10), 10);
    expect(leastDuration(triangle)).toBe(10);
  });

  it('may have its mode at an end, or no width at all', () => {
    expect(durationAt({ distribution: 'triangular', min: 10, mode: 10, max: 60 }, 1e-15)).toBeCloseTo(10, 5);
    expect(durationAt({ distribution: 'triangular', min: 10, mode: 60, max: 60 }, 1 - 2 ** -53)).toBeCloseTo(60, 5);
    expect(durationAt({ distribution: 'triangular', min: 5, mode: 5, max: 5 }, 0.3)).toBe(5);
  });

  it.each<Duration>([
    usual,
    triangle,
    { distribution: 'fixed', value: 42 },
    { distribution: 'lognormal', median: 300, p90: 300 },
  ])('is the same to the bit once made ready: %o', (duration) => {
    const compiled = compileDuration(duration);
    for (const u of [0, 1e-9, 0.3, 0.5, 0.9, 1 - 1e-9]) expect(secondsAt(compiled, u)).toBe(durationAt(duration, u));
  });

  it('has the mean of its quantiles', () => {
    expect(Math.abs(meanOverQuantiles(triangle) / meanDuration(triangle) - 1)).toBeLessThan(1e-6);
    expect(Math.abs(meanOverQuantiles(usual) / meanDuration(usual) - 1)).toBeLessThan(1e-4);
  });

  it('never shrinks as u grows, and is never shorter than its least', () => {
    const time = fc.double({ min: 0, max: 1e6, noNaN: true });
    const durations = fc.oneof(
      time.map((value): Duration => ({ distribution: 'fixed', value })),
      fc
        .tuple(time, fc.double({ min: 1, max: 30, noNaN: true }))
        .map(([median, ratio]): Duration => ({ distribution: 'lognormal', median, p90: median * ratio })),
      fc.tuple(time, time, time).map((three): Duration => {
        const [min, mode, max] = three.sort((a, b) => a - b);
        return { distribution: 'triangular', min, mode, max };
      }),
    );
    const share = fc.integer({ min: 0, max: 2 ** 30 - 1 }).map((k) => (k + 0.5) / 2 ** 30);
    fc.assert(
      fc.property(durations, share, share, (duration, u, v) => {
        const [early, late] = [durationAt(duration, Math.min(u, v)), durationAt(duration, Math.max(u, v))];
        expect(early).toBeLessThanOrEqual(late * (1 + 1e-15));
        expect(early).toBeGreaterThanOrEqual(leastDuration(duration));
      }),
      { seed: 5, numRuns: 1000 },
    );
  });
});
