import { describe, expect, it } from 'vitest';
import { lognormalAt, normalQuantile } from '../../src/chance/normal.js';

describe('the normal variate', () => {
  it('is odd about the middle', () => {
    expect(normalQuantile(0.5)).toBeCloseTo(0, 15);
    for (const u of [2 ** -53, 1e-9, 0.01, 0.3]) expect(normalQuantile(1 - u) / -normalQuantile(u)).toBeCloseTo(1, 8);
  });

  it('is finite for every draw that can come', () => {
    expect(normalQuantile(2 ** -53)).toBeCloseTo(-8.2095, 4);
    expect(normalQuantile(1 - 2 ** -53)).toBeCloseTo(8.2095, 4);
  });
});

describe('the lognormal variate', () => {
  it('is its median in the middle, and one geometric standard deviation off at one standard deviation', () => {
    expect(lognormalAt(8, 1.5, 0.5)).toBeCloseTo(8, 14);
    expect(lognormalAt(8, 1.5, 0.8413447460685429)).toBeCloseTo(12, 12);
    expect(lognormalAt(8, 1, 0.99)).toBe(8);
  });
});
