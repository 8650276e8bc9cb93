import { describe, expect, it } from 'vitest';
import type { KindModel } from '../../src/probe/kind-model.js';
import { evenKind } from '../support/scene.js';
import { eventsOver, modelWith, newTip, scanOnce } from './support.js';

const perImage = (cause: string, life: object, more: object = {}) => ({ cause, per: 'image', life, ...more });
const exponential = (mean: number) => ({ distribution: 'exponential', mean });
const weibull = (shape: number, scale: number) => ({ distribution: 'weibull', shape, scale });

/** Where the events of one hazard come, in images, over many scans. */
function placesOf(hazard: Record<string, unknown>, replication: number, images: number) {
  const model = modelWith([hazard]);
  return eventsOver(newTip(model, { replication }), model.passes[0], images).events;
}

/** A kind whose tips age by a scan as others do by 10^30. */
function hurried(kind: KindModel): KindModel {
  const hazards = kind.hazards.map((hazard) => ({
    ...hazard,
    exposure: hazard.exposure.map((each) => each * 1e30),
    scans: hazard.scans.map((each) => each / 1e30),
  }));
  return { ...kind, hazards };
}

describe('chipping', () => {
  const even = { radiusFactor: { median: 1.5, geometricSd: 1 } };

  it('comes again and again, where the cumulative hazard reaches E1, E1 + E2 and so on', () => {
    for (let replication = 0; replication < 10; replication += 1) {
      const sums = placesOf(perImage('chipping', exponential(1), even), replication, 40).map(({ at }) => at);
      expect(sums.length).toBeGreaterThan(10);
      const ages = placesOf(perImage('chipping', weibull(1.5, 2), even), replication, 15).map(({ at }) => at);
      expect(ages.length).toBeGreaterThan(10);
      ages.slice(0, sums.length).forEach((age, i) => {
        expect(age).toBeCloseTo(2 * sums[i] ** (1 / 1.5), 7);
      });
    }
  });

  it('comes two thousand times in a scan or an approach at most, however far its exponents are drawn', () => {
    for (const per of ['image', 'approach']) {
      const model = modelWith([{ cause: 'chipping', per, life: exponential(100), ...even }]);
      const tip = newTip({ ...model, kinds: model.kinds.map(hurried) });
      const before = tip.state.hazards[0].events;
      if (per === 'approach') tip.approach(model.passes[0], 0);
      const { outcome } = scanOnce(tip, model.passes[0]);
      expect([before, tip.state.hazards[0].events]).toEqual([0, 2000]);
      expect(Number.isNaN(outcome.radius)).toBe(false);
    }
  });

  it('makes the radius jump, and counts at mid-image if it came by then', () => {
    const model = modelWith([perImage('chipping', exponential(1), even)]);
    for (let replication = 0; replication < 10; replication += 1) {
      const tip = newTip(model, { replication });
      let radius = 8;
      for (let image = 0; image < 6; image += 1) {
        const { outcome, events } = scanOnce(tip, model.passes[0]);
        const early = events.filter(({ at }) => at <= 0.5).length;
        expect(outcome.radius).toBeCloseTo(radius * 1.5 ** early, 6);
        expect(outcome.state).toBe(1);
        radius *= 1.5 ** events.length;
        expect(tip.radius).toBeCloseTo(radius, 6);
      }
    }
  });

  it('jumps by a lognormal factor', () => {
    const model = modelWith([
      perImage('chipping', exponential(0.01), { radiusFactor: { median: 1.001, geometricSd: 1.0005 } }),
    ]);
    const tip = newTip(model);
    const logs: number[] = [];
    let before = Math.log(tip.radius);
    tip.scan(model.passes[0], false, {
      stopsAt: () => {
        logs.push(Math.log(tip.radius) - before);
        before = Math.log(tip.radius);
        return Infinity;
      },
      timeAt: () => 0,
    });
    // Of about a hundred jumps the mean lies within 7 of its standard errors of ln 1.001, and their spread is that of ln 1.0005.
    const mean = logs.reduce((sum, log) => sum + log, 0) / logs.length;
    const spread = Math.sqrt(logs.reduce((sum, log) => sum + (log - mean) ** 2, 0) / (logs.length - 1));
    expect(logs.length).toBeGreaterThan(60);
    expect(Math.abs(mean - Math.log(1.001))).toBeLessThan((7 * Math.log(1.0005)) / Math.sqrt(logs.length));
    expect(spread / Math.log(1.0005)).toBeGreaterThan(0.5);
    expect(spread / Math.log(1.0005)).toBeLessThan(1.6);
  });

  it('lets blunting go on from the chipped radius', () => {
    const blunt = {
      ...evenKind([perImage('chipping', exponential(1), even)]),
      blunting: { wear: { archardK: 0.001, hardness: '12 GPa', geometricSd: 1 } },
    };
    const model = modelWith([], { tips: { tip: blunt }, passes: [{ size: '1 um', lines: 512, load: '1 nN' }] });
    const c = (Math.PI * (1 - Math.sin(Math.PI / 9)) ** 2) / (3 * Math.sin(Math.PI / 9));
    const growth = (1.024 * 1000) / 12 / c; // nm³ an image, by hand: k·F·s/c
    const tip = newTip(model);
    let cube = 8 ** 3;
    let chips = 0;
    for (let image = 0; image < 8; image += 1) {
      const { outcome, events } = scanOnce(tip, model.passes[0]);
      let last = 0;
      let middle: number | null = null;
      for (const at of [...events.map((event) => event.at), Infinity]) {
        if (middle === null && at > 0.5) middle = cube + growth * (0.5 - last);
        cube += growth * (Math.min(at, 1) - last);
        last = Math.min(at, 1);
        if (at <= 1) cube *= 1.5 ** 3;
      }
      chips += events.length;
      expect(outcome.radius).toBeCloseTo(Math.cbrt(middle ?? NaN), 7);
      expect(tip.radius).toBeCloseTo(Math.cbrt(cube), 7);
    }
    expect(chips).toBeGreaterThan(3);
  });
});

describe('fouling', () => {
  const fouling = (life: object, clears: number | string, quality = 0.4) =>
    perImage('fouling', life, { quality, clears });

  it('takes its factor while it lasts, also for parts of an image', () => {
    // Pace hastens the fouling fourfold, but not the clearing, which often lasts into the next images.
    const accelerated = { ...fouling(exponential(4), 0.6), acceleration: { pace: 2 } };
    const model = modelWith([accelerated], { pace: { scan: 2 } });
    let partial = 0;
    for (let replication = 0; replication < 10; replication += 1) {
      const { scans, events } = eventsOver(newTip(model, { replication }), model.passes[0], 12);
      scans.forEach(({ outcome }, image) => {
        const fouled = events.reduce(
          (sum, { at, clearsAt }) => sum + Math.max(0, Math.min(clearsAt, image + 1) - Math.max(at, image)),
          0,
        );
        expect(outcome.state).toBeCloseTo(1 - 0.6 * fouled, 9);
        if (fouled > 0 && fouled < 1) partial += 1;
      });
    }
    expect(partial).toBeGreaterThan(30);
  });

  it('starts its exposure anew once it has cleared, and none accrues meanwhile', () => {
    for (let replication = 0; replication < 10; replication += 1) {
      const gapsOf = (life: object) => {
        const events = placesOf(fouling(life, 2), replication, 400);
        return events.slice(0, 8).map(({ at }, i) => at - (i === 0 ? 0 : events[i - 1].clearsAt));
      };
      const gaps = gapsOf(exponential(1));
      expect(gaps).toHaveLength(8);
      // A Weibull life that did not start at 0 again would come sooner and sooner.
      gapsOf(weibull(2, 5)).forEach((gap, i) => {
        expect(gap).toBeCloseTo(5 * gaps[i] ** (1 / 2), 7);
      });
    }
  });

  it('lasts an exponential number of images, whatever the pace', () => {
    const lasting = (pace: number, replication: number) => {
      const model = modelWith([perImage('fouling', exponential(1), { clears: 3, acceleration: { pace: 2 } })], {
        pace: { scan: pace },
      });
      const { events } = eventsOver(newTip(model, { replication }), model.passes[0], 60);
      return events.slice(0, 3).map(({ at, clearsAt }) => clearsAt - at);
    };
    const all: number[] = [];
    for (let replication = 0; replication < 100; replication += 1) {
      const usual = lasting(1, replication);
      lasting(2, replication).forEach((lasts, i) => {
        if (i < usual.length) expect(lasts).toBeCloseTo(usual[i], 8);
      });
      all.push(...usual);
    }
    // About 300 exponentials of mean 3: within 7 standard errors, 7·3/√300 = 1.2 (fixed seed, once in 1e9 by chance).
    const mean = all.reduce((sum, lasts) => sum + lasts, 0) / all.length;
    expect(all.length).toBeGreaterThan(270);
    expect(Math.abs(mean - 3)).toBeLessThan(1.2);
    expect(all.filter((lasts) => lasts > 3 * Math.LN2).length / all.length).toBeGreaterThan(0.3);
    expect(all.filter((lasts) => lasts > 3 * Math.LN2).length / all.length).toBeLessThan(0.7);
  });

  it('never clears by itself where it says so, and is cleaned off', () => {
    const model = modelWith([fouling(exponential(2), 'never')]);
    const tip = newTip(model);
    const { scans, events } = eventsOver(tip, model.passes[0], 100);
    expect(events).toHaveLength(1);
    expect(scans[99].outcome.state).toBe(0.4);
    expect(tip.mark).toBe('fouled');
    tip.clean();
    expect(tip.mark).toBeNull();
    expect(tip.stateNow(false)).toBe(1);
    // First causes stay: it was fouled before.
    expect(tip.spoiled?.cause).toBe('fouling');
    expect(eventsOver(tip, model.passes[0], 100).events).toHaveLength(1);
  });

  it('per approach clears while scanning', () => {
    const model = modelWith([
      {
        cause: 'fouling',
        per: 'approach',
        life: { distribution: 'probability', perUnit: 0.9999999 },
        quality: 0.5,
        clears: 2,
      },
    ]);
    const tip = newTip(model);
    tip.approach(model.passes[0], 0);
    expect(tip.stateNow(false)).toBe(0.5);
    for (let i = 0; i < 60; i += 1) scanOnce(tip, model.passes[0]);
    expect(tip.mark).toBeNull();
    tip.approach(model.passes[0], 0);
    expect(tip.mark).toBe('fouled');
  });
});

describe('marks for good', () => {
  it('a coating is worn in every scan but missed in electrical passes only', () => {
    const model = modelWith([perImage('coating', exponential(2))]);
    const tip = newTip(model);
    const { events } = eventsOver(tip, model.passes[0], 40);
    expect(events).toHaveLength(1);
    expect(tip.uncoated).toBe(true);
    expect(scanOnce(tip, model.passes[0]).outcome.state).toBe(1);
    expect(scanOnce(tip, model.passes[0], { electrical: true }).outcome.state).toBe(0);
    expect([tip.stateNow(false), tip.stateNow(true)]).toEqual([1, 0]);
  });

  it('a worn-out tip keeps its factor, whatever cleans it, and factors multiply', () => {
    const model = modelWith([
      perImage('worn-out', weibull(3, 4), { quality: 0.7 }),
      perImage('fouling', exponential(2), { quality: 0.5, clears: 'never' }),
    ]);
    const tip = newTip(model);
    const { events } = eventsOver(tip, model.passes[0], 60);
    expect(events.map(({ cause }) => cause).sort()).toEqual(['fouling', 'worn-out']);
    expect(tip.mark).toBe('fouled');
    expect(tip.stateNow(false)).toBeCloseTo(0.35, 12);
    tip.clean();
    expect(tip.mark).toBe('worn-out');
    expect(tip.stateNow(false)).toBeCloseTo(0.7, 12);
    expect(tip.spoiled?.cause).toBe(events[0].cause);
  });

  it('a double tip shows everything twice until its apex is made anew, whatever cleans it', () => {
    const model = modelWith([perImage('double-tip', exponential(2), { quality: 0.3 })]);
    const tip = newTip(model);
    const { events } = eventsOver(tip, model.passes[0], 40);
    expect(events.map(({ cause }) => cause)).toEqual(['double-tip']);
    expect(scanOnce(tip, model.passes[0]).outcome.state).toBe(0.3);
    tip.clean();
    expect([tip.mark, tip.stateNow(false), tip.broken]).toEqual(['chipped', 0.3, false]);
    tip.renewApex(0);
    expect([tip.mark, tip.stateNow(false)]).toEqual([null, 1]);
  });
});
