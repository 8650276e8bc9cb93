import { describe, expect, it } from 'vitest';
import { LuckTable } from '../../src/chance/luck.js';
import { Tip } from '../../src/probe/tip.js';
import { eventsOver, modelWith, newTip, scanOnce } from './support.js';

const perImage = (cause: string, life: object, more: object = {}) => ({ cause, per: 'image', life, ...more });
const exponential = (mean: number) => ({ distribution: 'exponential', mean });
const weibull = (shape: number, scale: number) => ({ distribution: 'weibull', shape, scale });

describe('the luck of a tip', () => {
  it('does not depend on how the tip is used', () => {
    const hazards = [
      perImage('breakage', weibull(2, 30)),
      perImage('fouling', exponential(7), { clears: 3 }),
      perImage('chipping', exponential(9)),
    ];
    const model = modelWith(hazards, { passes: [{ lines: 60 }, { lines: 120, size: '300 nm', load: '9 nN' }] });
    const places = (order: (image: number) => number) => {
      const tip = newTip(model, { replication: 3 });
      return Array.from({ length: 40 }, (_, image) =>
        scanOnce(tip, model.passes[order(image)]).events.map(({ cause, at }) => [cause, (image + at).toFixed(9)]),
      ).flat();
    };
    // Per image, a light and a heavy pass are one image each: the events come in the same places in whatever order.
    const light = places(() => 0);
    expect(light.length).toBeGreaterThan(4);
    expect(places((image) => image % 2)).toEqual(light);
    expect(places((image) => (image < 9 ? 1 : 0))).toEqual(light);
  });

  it('does not depend on the scans being cut into pieces by noticed events', () => {
    const model = modelWith([
      perImage('fouling', exponential(4), { clears: 'never' }),
      perImage('breakage', exponential(9)),
    ]);
    const whole = newTip(model, { replication: 1 });
    eventsOver(whole, model.passes[0], 80);
    const pieces = newTip(model, { replication: 1 });
    while (pieces.use.images < 80) scanOnce(pieces, model.passes[0], { stopsAt: () => 0.9 });
    expect(pieces.spoiled?.cause).toBe(whole.spoiled?.cause);
    expect(pieces.spoiled?.use.images).toBeCloseTo(whole.spoiled?.use.images ?? NaN, 9);
  });

  it('is its own for each number, instrument and replication, the same when asked again', () => {
    const model = modelWith([], { tips: { tip: { radius: { nominal: '8 nm', geometricSd: 1.3 } } } });
    const table = new LuckTable('tips');
    const radius = (number: number, instrument: number, replication: number) =>
      new Tip(model.kinds[0], number, instrument, table.replication(replication)).radius;
    expect(radius(0, 0, 0)).toBe(radius(0, 0, 0));
    expect(new Set([radius(0, 0, 0), radius(1, 0, 0), radius(0, 1, 0), radius(0, 0, 1)]).size).toBe(4);
  });

  it('draws radii with the median and geometric standard deviation of the kind', () => {
    const model = modelWith([], { tips: { tip: { radius: { nominal: '8 nm', geometricSd: 1.3 } } } });
    const logs = Array.from(
      { length: 4000 },
      (_, number) => Math.log(newTip(model, { number }).radius / 8) / Math.log(1.3),
    );
    const mean = logs.reduce((sum, log) => sum + log, 0) / logs.length;
    const variance = logs.reduce((sum, log) => sum + log * log, 0) / logs.length;
    // 4000 standard normals, fixed seed: 6.5 standard errors of the mean (0.103) and of the mean square (0.145), once in 1e9 by chance.
    expect(Math.abs(mean)).toBeLessThan(0.103);
    expect(Math.abs(variance - 1)).toBeLessThan(0.145);
  });

  it('makes a new apex by another draw, with fouling gone and the wear as it was', () => {
    const model = modelWith([], {
      tips: {
        tip: {
          radius: { nominal: '8 nm', geometricSd: 1.3 },
          hazards: [perImage('fouling', exponential(1), { clears: 'never' })],
        },
      },
    });
    const tip = newTip(model);
    const before = tip.radius;
    eventsOver(tip, model.passes[0], 30);
    tip.renewApex(0);
    expect(tip.radius).not.toBe(before);
    expect(tip.mark).toBeNull();
    const again = newTip(model);
    again.renewApex(0);
    expect(again.radius).toBe(tip.radius);
  });
});
