import { describe, expect, it } from 'vitest';
import { lookAt, relativeHalfWidth } from '../../src/statistics/stopping.js';

describe('the looks of a study', () => {
  it('come after 200 replications and each doubling', () => {
    expect([0, 1, 2, 3, 6].map(lookAt)).toEqual([200, 400, 800, 1600, 12_800]);
  });
});

describe('the relative half-width', () => {
  it('is a share of the reference, whatever its sign', () => {
    expect(relativeHalfWidth(2, 50)).toBe(0.04);
    expect(relativeHalfWidth(2, -50)).toBe(0.04);
  });

  it('is met by no variance at all, and never by any against a reference of 0', () => {
    expect(relativeHalfWidth(0, 0)).toBe(0);
    expect(relativeHalfWidth(0.1, 0)).toBe(Infinity);
  });
});
