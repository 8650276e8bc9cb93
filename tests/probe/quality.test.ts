import { describe, expect, it } from 'vitest';
import { loadedBandwidth, resolutionDistance, resolutionQuality, trackingQuality } from '../../src/probe/quality.js';

const demand = { size: 1000, lines: 1000, neededResolution: 8, dip: 1 };

describe('the quality of an image', () => {
  it('tells two sharp features apart at 2 √(2 R Δz)', () => {
    expect(resolutionDistance(8, 1)).toBe(8);
    expect(resolutionDistance(2, 4)).toBe(8);
  });

  it('is the needed distance over what the tip gives, at most 1', () => {
    expect(resolutionQuality(demand, 8)).toBe(1);
    expect(resolutionQuality(demand, 2)).toBe(1);
    expect(resolutionQuality(demand, 32)).toBe(0.5);
  });

  it('is limited by two pixels or two lines, whichever is coarser', () => {
    expect(resolutionQuality({ ...demand, lines: 125 }, 8)).toBe(0.5);
    expect(resolutionQuality({ ...demand, pixels: 125 }, 8)).toBe(0.5);
    expect(resolutionQuality({ ...demand, lines: 125, dip: undefined }, 1e9)).toBe(0.5);
  });

  it('is 1 where no resolution is needed', () => {
    expect(resolutionQuality({ size: 1000, lines: 2 }, 1e9)).toBe(1);
    expect(trackingQuality(1e9, undefined, 1)).toBe(1);
    expect(trackingQuality(1e9, 1, undefined)).toBe(1);
  });

  it('falls to 1/√2 where the features pass at the bandwidth of the loop', () => {
    expect(trackingQuality(8000, 8, 1000)).toBeCloseTo(Math.SQRT1_2, 15);
  });

  it('halves the bandwidth where the mass on the lever is three times its own', () => {
    expect(loadedBandwidth(1000, 3, 1)).toBe(500);
    expect(loadedBandwidth(1000, 0, 1)).toBe(1000);
  });
});
