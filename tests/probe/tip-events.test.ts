import { describe, expect, it } from 'vitest';
import { eventsOver, modelWith, newTip, SCAN, scanOnce } from './support.js';

const perImage = (cause: string, life: object, more: object = {}) => ({ cause, per: 'image', life, ...more });
const exponential = (mean: number) => ({ distribution: 'exponential', mean });
const weibull = (shape: number, scale: number) => ({ distribution: 'weibull', shape, scale });

/** Images until the first event of a tip. */
function firstAt(hazards: readonly Record<string, unknown>[], replication: number, images = 2000): number {
  const model = modelWith(hazards);
  return eventsOver(newTip(model, { replication }), model.passes[0], images).events[0].at;
}

describe('a tip that breaks', () => {
  const model = modelWith([perImage('breakage', exponential(3))]);

  it('gives the fraction of the image before the break, and nothing after', () => {
    let broken = 0;
    for (let replication = 0; replication < 20; replication += 1) {
      const tip = newTip(model, { replication });
      const { scans, events } = eventsOver(tip, model.passes[0], 30);
      if (events.length === 0) continue;
      broken += 1;
      expect(events).toHaveLength(1);
      const [{ image, at, clearsAt }] = events;
      expect(clearsAt).toBe(Infinity);
      scans.forEach(({ outcome }, i) => {
        expect(outcome.state).toBeCloseTo(i < image ? 1 : i > image ? 0 : at - image, 12);
        expect(outcome).toMatchObject({ done: 1, stoppedBy: null });
      });
      expect(tip.broken).toBe(true);
      expect(tip.spoiled?.use.images).toBeCloseTo(at, 12);
    }
    expect(broken).toBeGreaterThan(15);
  });

  it('notes the moment and the use in every unit', () => {
    const tip = newTip(model);
    let image = 0;
    const at: number[] = [];
    while (!tip.broken) {
      const { events } = scanOnce(tip, model.passes[0], { start: image * SCAN });
      at.push(...events.map((event) => image + event.at));
      image += 1;
    }
    const { spoiled } = tip;
    const x = spoiled?.use.images ?? NaN;
    expect(at).toEqual([x]);
    expect(spoiled?.cause).toBe('breakage');
    expect(spoiled?.time).toBeCloseTo(x * SCAN, 3);
    // A scan of 60 lines over 100 nm is 2·60·100 nm = 0.012 mm of path, and a minute.
    expect(spoiled?.use.path).toBeCloseTo(x * 0.012, 12);
    expect(spoiled?.use.hours).toBeCloseTo(x / 60, 12);
    expect(tip.use).toMatchObject({ images: image, approaches: 0 });
  });

  it('stops where the event is noticed, and has done only that much', () => {
    const tip = newTip(modelWith([perImage('breakage', { distribution: 'probability', perUnit: 0.9999999 })]));
    const { outcome, events } = scanOnce(tip, model.passes[0], { stopsAt: () => 0.75 });
    expect(events[0].at).toBeLessThan(0.75);
    expect(outcome).toMatchObject({ done: 0.75, stoppedBy: 'breakage' });
    expect(tip.use.images).toBe(0.75);
    expect(tip.use.path).toBeCloseTo(0.75 * 0.012, 12);
  });
});

describe('the life of a hazard', () => {
  it('ends where the cumulative hazard reaches the tip’s unit exponential, whatever the distribution', () => {
    for (let replication = 0; replication < 30; replication += 1) {
      const e = firstAt([perImage('breakage', exponential(1))], replication);
      expect(firstAt([perImage('breakage', exponential(7))], replication)).toBeCloseTo(7 * e, 8);
      expect(firstAt([perImage('breakage', weibull(2.5, 9))], replication)).toBeCloseTo(9 * e ** (1 / 2.5), 8);
      // A probability p per unit is a cumulative hazard of -ln(1-p) per unit.
      const p = { distribution: 'probability', perUnit: 0.2 };
      expect(firstAt([perImage('breakage', p)], replication)).toBeCloseTo(e / -Math.log(0.8), 8);
    }
  });

  it('is counted in path, hours or images, as the hazard says', () => {
    const e = firstAt([perImage('breakage', exponential(1))], 0);
    const inUnit = (per: string, mean: string) =>
      firstAt([{ cause: 'breakage', per, life: { distribution: 'exponential', mean } }], 0);
    expect(inUnit('distance', '0.06 mm')).toBeCloseTo((0.06 / 0.012) * e, 8);
    expect(inUnit('hour', '0.2 h')).toBeCloseTo(12 * e, 8);
  });

  it('is used up faster by pace^α and (load/reference)^β', () => {
    const at = (pace: number, load: string, acceleration: object) => {
      const model = modelWith([perImage('breakage', exponential(20), { acceleration })], {
        pace: { scan: pace },
        passes: [{ load }],
      });
      return eventsOver(newTip(model), model.passes[0], 500).events[0].at;
    };
    const usual = at(1, '1 nN', {});
    expect(at(3, '5 nN', {})).toBeCloseTo(usual, 9);
    expect(at(2, '1 nN', { pace: 1.5 })).toBeCloseTo(usual / 2 ** 1.5, 9);
    expect(at(1, '6 nN', { load: 2, referenceLoad: '3 nN' })).toBeCloseTo(usual / 4, 9);
    expect(at(2, '6 nN', { pace: 1, load: 1, referenceLoad: '3 nN' })).toBeCloseTo(usual / 4, 9);
  });

  it('per hour counts the hours that the pace leaves, per path and image the whole scan', () => {
    const at = (per: string, mean: string | number) => {
      const model = modelWith([{ cause: 'breakage', per, life: { distribution: 'exponential', mean } }], {
        pace: { scan: 2 },
      });
      return eventsOver(newTip(model), model.passes[0], 2000).events[0].at;
    };
    const e = firstAt([perImage('breakage', exponential(1))], 0);
    expect(at('hour', '0.2 h')).toBeCloseTo(24 * e, 8);
    expect(at('distance', '0.06 mm')).toBeCloseTo(5 * e, 8);
    expect(at('image', 5)).toBeCloseTo(5 * e, 8);
  });
});

describe('a tip exposed at approaches', () => {
  const model = modelWith([{ cause: 'breakage', per: 'approach', life: weibull(3, 12) }], {
    passes: [{}, { load: '8 nN' }],
  });
  /** Approaches that a tip survives, and its first break. */
  function approachesOf(hazard: Record<string, unknown>, pass: number, replication: number): number {
    const approached = modelWith([hazard], { passes: [{}, { load: '8 nN' }], pace: { scan: 2 } });
    const tip = newTip(approached, { replication });
    while (!tip.broken) tip.approach(approached.passes[pass], 5);
    return tip.use.approaches;
  }

  it('breaks at the end of the first approach by which the cumulative hazard has reached its exponential', () => {
    const seen = new Set<number>();
    for (let replication = 0; replication < 40; replication += 1) {
      const e = firstAt([perImage('breakage', exponential(1))], replication);
      const n = approachesOf({ cause: 'breakage', per: 'approach', life: weibull(3, 12) }, 0, replication);
      expect(n).toBe(Math.ceil(12 * e ** (1 / 3)));
      seen.add(n);
    }
    expect(seen.size).toBeGreaterThan(5);
  });

  it('is exposed more by the load and pace of the pass to come', () => {
    for (let replication = 0; replication < 20; replication += 1) {
      const e = firstAt([perImage('breakage', exponential(1))], replication);
      const hazard = { cause: 'breakage', per: 'approach', life: exponential(400), acceleration: { pace: 1, load: 1 } };
      expect(approachesOf(hazard, 0, replication)).toBe(Math.ceil((400 * e) / 2));
      expect(approachesOf(hazard, 1, replication)).toBe(Math.ceil((400 * e) / 16));
    }
  });

  it('is not exposed by scanning in which something else happens to it', () => {
    const both = modelWith([
      { cause: 'breakage', per: 'approach', life: exponential(1e6) },
      perImage('chipping', exponential(0.2), { radiusFactor: { median: 1.1, geometricSd: 1.1 } }),
    ]);
    const tip = newTip(both);
    tip.approach(both.passes[0], 0);
    const { events } = scanOnce(tip, both.passes[0]);
    expect(events.length).toBeGreaterThan(0);
    expect(tip.state.hazards[0].exposure).toBe(1);
  });

  it('is not exposed by scanning', () => {
    const tip = newTip(model);
    for (let i = 0; i < 1000; i += 1) scanOnce(tip, model.passes[0]);
    expect(tip).toMatchObject({ broken: false, spoiled: null });
    expect(tip.use).toMatchObject({ images: 1000, approaches: 0 });
  });
});
