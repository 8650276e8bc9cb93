import { describe, expect, it } from 'vitest';
import { SECOND } from '../../src/kernel/clock.js';
import { driftLine, type RateStretch, type Started } from '../../src/analysis/drift-line.js';
import { nonEmpty } from '../support/non-empty.js';

const MINUTE = 60 * SECOND;
const COURSE = { decay: { handling: 600, move: 180 }, steady: 0.02 };
const handled = (rate: number, minutes: number): Started => ({ kind: 'handling', rate, time: minutes * MINUTE });
const moved = (rate: number, minutes: number): Started => ({ kind: 'move', rate, time: minutes * MINUTE });

/** The rate that the line shows at so many minutes. */
function shown(line: readonly RateStretch[], minutes: number): number {
  const found = line.find(({ start, end }) => start <= minutes * MINUTE && minutes * MINUTE < end);
  if (found === undefined) throw new Error(`the line has a gap at ${minutes} min`);
  return found.rate;
}

describe('the line of the drift rate', () => {
  const line = driftLine(COURSE, [handled(1, 10), moved(0.2, 40)], 0, 100 * MINUTE);

  it('goes from the first moment to the last without a gap', () => {
    expect(line[0].start).toBe(0);
    expect(line.at(-1)?.end).toBe(100 * MINUTE);
    line.slice(1).forEach(({ start }, place) => {
      expect(start).toBe(line[place].end);
    });
  });

  it('has the rate worked out by hand where each stretch begins', () => {
    for (const { start, rate } of nonEmpty(line)) {
      const minutes = start / MINUTE;
      const byHand =
        0.02 +
        (minutes < 10 ? 0 : Math.exp(-(minutes - 10) / 10)) +
        (minutes < 40 ? 0 : 0.2 * Math.exp(-(minutes - 40) / 3));
      expect(rate).toBeCloseTo(byHand, 8);
    }
  });

  it('shows a disturbance at its moment, and is never off by more than a fifth', () => {
    expect(shown(line, 9.9)).toBe(0.02);
    expect(shown(line, 10)).toBeCloseTo(1.02, 12);
    expect(shown(line, 40)).toBeCloseTo(0.02 + Math.exp(-3) + 0.2, 8);
    for (let minutes = 10; minutes < 40; minutes += 0.37) {
      const truly = 0.02 + Math.exp(-(minutes - 10) / 10);
      expect(shown(line, minutes)).toBeGreaterThanOrEqual(truly * (1 - 1e-9));
      expect(shown(line, minutes)).toBeLessThanOrEqual(truly * 1.2 + 1e-9);
    }
  });

  it('ends its fall once what is left is next to nothing, without a steady rate too', () => {
    const still = driftLine({ ...COURSE, steady: 0 }, [handled(1, 0)], 0, 1e6 * MINUTE);
    expect(still.length).toBeLessThan(60);
    expect(still.at(-1)?.rate).toBeLessThan(1e-3);
  });

  it('keeps the greatest rates where there are too many stretches', () => {
    const many = Array.from({ length: 500 }, (_, place) => handled(place === 250 ? 3 : 1, 60 * (place + 1)));
    const long = driftLine(COURSE, many, 0, 501 * 60 * MINUTE);
    expect(long.length).toBeLessThanOrEqual(2000);
    expect(Math.max(...long.map(({ rate }) => rate))).toBeCloseTo(3.02, 2);
    expect(long.at(-1)?.end).toBe(501 * 60 * MINUTE);
  });
});
