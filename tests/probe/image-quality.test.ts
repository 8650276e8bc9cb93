import { describe, expect, it } from 'vitest';
import { demandOf, imageQuality, isGood, startingQuality } from '../../src/probe/image.js';
import { eventsOver, modelWith, newTip } from './support.js';

const perImage = (cause: string, life: object, more: object = {}) => ({ cause, per: 'image', life, ...more });
const exponential = (mean: number) => ({ distribution: 'exponential', mean });

describe('image quality', () => {
  const { settings } = modelWith([], {
    passes: [
      {
        accept: 0,
        size: '2 um',
        lines: 256,
        pixels: 128,
        neededResolution: '40 nm',
        dip: '1 nm',
        trackingBandwidth: '25 Hz',
      },
    ],
  });
  const [pass] = settings.plan.passes;

  it('is the product of resolution, tracking and the tip’s state', () => {
    const speed = 2 * 2000;
    const demand = demandOf(pass, speed, null);
    const tracking = 1 / Math.sqrt(1 + (speed / (40 * 25)) ** 2);
    // Two pixels are 31.25 nm, two lines 15.6 nm; a tip of 20 nm tells 2√(2·20·1) = 12.6 nm apart, one of 500 nm only 63.2 nm.
    expect(imageQuality(demand, 20, 1)).toBeCloseTo(tracking, 12);
    expect(imageQuality(demand, 500, 0.5)).toBeCloseTo(0.5 * tracking * (40 / (2 * Math.sqrt(1000))), 12);
    const loaded = demandOf(pass, speed, { mass: 3, effectiveMass: 1 });
    expect(loaded.tracking).toBeCloseTo(1 / Math.sqrt(1 + (speed / (40 * 12.5)) ** 2), 12);
  });

  it('is limited by two pixels or lines, whichever is coarser', () => {
    const coarse = demandOf({ ...pass, neededResolution: 20, trackingBandwidth: undefined }, 1, null);
    expect(imageQuality(coarse, 20, 1)).toBeCloseTo(20 / 31.25, 12);
    const lines = demandOf(
      { ...pass, lines: 64, pixels: 512, neededResolution: 20, trackingBandwidth: undefined },
      1,
      null,
    );
    expect(imageQuality(lines, 20, 1)).toBeCloseTo(20 / 62.5, 12);
  });

  it('is 1 where nothing is to be resolved, and the tip does not matter where no dip is given', () => {
    const free = { ...pass, neededResolution: undefined };
    expect(imageQuality(demandOf(free, 1e6, null), 1e4, 1)).toBe(1);
    const noDip = { ...pass, dip: undefined, trackingBandwidth: undefined };
    expect(imageQuality(demandOf(noDip, 1, null), 1e4, 1)).toBe(1);
  });

  it('is good at accept to 1e-12, and starts at what the tip is now', () => {
    const demand = demandOf({ ...pass, accept: 0.6 }, 1, null);
    expect([0.6, 0.6 - 9e-13, 0.6 - 2e-12].map((q) => isGood(demand, q))).toEqual([true, true, false]);
    const model = modelWith([perImage('worn-out', exponential(1), { quality: 0.3 })]);
    const tip = newTip(model);
    expect(startingQuality(model.passes[0].demand, tip)).toBe(1);
    eventsOver(tip, model.passes[0], 40);
    expect(startingQuality(model.passes[0].demand, tip)).toBe(0.3);
  });
});
