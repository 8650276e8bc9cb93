import { describe, expect, it } from 'vitest';
import { erfcinv, exp, expm1, log1p } from '../../src/chance/elementary.js';
import { exponentialScore, lognormal, lognormalScore, normalScore, power } from '../../src/chance/scores.js';
import { nonEmpty } from '../support/non-empty.js';

/** Shares over all of (0, 1): the ends that a draw may have, both sides of each octave and cell, and many in between. */
function* shares(): Generator<number> {
  for (let octave = 1; octave <= 52; octave += 1) {
    const from = 2 ** -octave;
    for (const below of [from, from * (1 + 2 ** -50), from * (1 - 2 ** -50)]) yield* [below, 1 - below];
    for (let cell = 0; cell < 64; cell += 1)
      for (const part of [0, 1e-9, 0.17, 0.5, 0.83]) {
        const below = (from / 2) * (1 + (cell + part) / 64);
        if (below < 2 ** -53) continue;
        yield* [below, 1 - below];
      }
  }
}
const SHARES = [...shares()].filter((u) => u > 0 && u < 1);

function worst(errorAt: (u: number) => number): number {
  return SHARES.reduce((most, u) => Math.max(most, errorAt(u)), 0);
}

describe('scores from tables', () => {
  it('are the normal quantile to 1e-9 everywhere', () => {
    expect(worst((u) => Math.abs(normalScore(u) + Math.SQRT2 * erfcinv(2 * u)))).toBeLessThan(1e-9);
  });

  it('are the exponential quantile to a relative 1e-9 everywhere', () => {
    expect(worst((u) => Math.abs(exponentialScore(u) / -log1p(-u) - 1))).toBeLessThan(1e-9);
  });

  it('are odd about one half, and zero there', () => {
    expect(normalScore(0.5)).toBeCloseTo(0, 15);
    for (const u of SHARES) if (u < 0.5 && 1 - (1 - u) === u) expect(normalScore(1 - u)).toBe(-normalScore(u));
  });

  it('never fall from one share to the next, across cells, octaves and the ends of the tables', () => {
    const inOrder = [...SHARES].sort((a, b) => a - b);
    for (const score of [normalScore, exponentialScore])
      expect(nonEmpty(inOrder).every((u, i) => i === 0 || score(u) >= score(inOrder[i - 1]) - 1e-9)).toBe(true);
  });

  it('give lognormal times to a relative 1e-9 for each unit of sigma', () => {
    for (const geometricSd of [1.01, 1.5, 3, 10]) {
      const times = lognormal(600, geometricSd);
      const exact = (u: number) => 600 * exp(-Math.SQRT2 * erfcinv(2 * u) * times.sigma);
      expect(worst((u) => Math.abs(lognormalScore(times, u) / exact(u) - 1))).toBeLessThan(
        1e-9 * Math.max(1, times.sigma),
      );
    }
    expect(lognormalScore(lognormal(600, 1), 0.99)).toBe(600);
    expect(lognormalScore(lognormal(600, 2), 0.5)).toBe(600);
  });
});

describe('the power of e', () => {
  it('is right to the last bits', () => {
    let most = 0;
    for (let x = -699.9; x < 700; x += 0.0373) most = Math.max(most, Math.abs(power(x) / exp(x) - 1));
    for (let x = -1e-3; x < 1e-3; x += 1.7e-7) most = Math.max(most, Math.abs((power(x) - 1 - expm1(x)) / exp(x)));
    expect(most).toBeLessThan(8e-16);
    expect([power(0), power(-Infinity), power(Infinity), power(-800)]).toEqual([1, 0, Infinity, 0]);
    expect(power(NaN)).toBeNaN();
  });
});
