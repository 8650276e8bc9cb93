import { describe, expect, it } from 'vitest';
import { demandOf } from '../../src/probe/image.js';
import { evenKind } from '../support/scene.js';
import { modelWith, newTip, SCAN, scanOnce } from './support.js';

const exponential = (mean: number) => ({ distribution: 'exponential', mean });

describe('an approach', () => {
  it('wears what is counted in approaches and nothing that is counted in images', () => {
    const hazards = ['breakage', 'worn-out'].map((cause) => ({ cause, per: 'image', life: exponential(2) }));
    const model = modelWith(hazards);
    for (let replication = 0; replication < 20; replication += 1) {
      const tip = newTip(model, { replication });
      for (let count = 0; count < 100; count += 1) tip.approach(model.passes[0], count * SCAN);
      expect(tip.state.hazards.map(({ exposure }) => exposure)).toEqual([0, 0]);
      expect(tip).toMatchObject({ broken: false, mark: null, spoiled: null });
      expect(tip.use).toMatchObject({ approaches: 100, images: 0 });
    }
  });

  it('may chip a tip several times, and leaves a mark that stays only once', () => {
    const chipping = {
      cause: 'chipping',
      per: 'approach',
      life: exponential(0.25),
      radiusFactor: { median: 1.1, geometricSd: 1.0001 },
    };
    const worn = { cause: 'worn-out', per: 'approach', life: exponential(0.25), quality: 0.8 };
    const model = modelWith([chipping, worn]);
    let chips = 0;
    for (let replication = 0; replication < 200; replication += 1) {
      const tip = newTip(model, { replication });
      for (let count = 0; count < 5; count += 1) tip.approach(model.passes[0], count * SCAN);
      const [chipped, marked] = tip.state.hazards;
      chips += chipped.events;
      expect(marked.events).toBeLessThanOrEqual(1);
      if (marked.marked) expect(tip.stateNow(false)).toBe(0.8);
      // Each chip makes the radius 1.1 times as large, but for one part in ten thousand.
      expect(Math.log(tip.radius / 8) / Math.log(1.1)).toBeCloseTo(chipped.events, 1);
    }
    // 1000 approaches at 4 chips each: Poisson with mean 4000. Further off than 5 standard errors, once in 1.7 million.
    expect(Math.abs(chips - 4000)).toBeLessThan(5 * Math.sqrt(4000));
  });
});

describe('the radius that an image is judged by', () => {
  it('is that in the middle of the scan, with what has chipped by then, whatever happens before and after', () => {
    const wear = { archardK: 0.002, hardness: '12 GPa', geometricSd: 1 };
    const chipping = {
      cause: 'chipping',
      per: 'image',
      life: exponential(0.3),
      radiusFactor: { median: 1.2, geometricSd: 1.0001 },
    };
    const passes = [{ size: '1 um', lines: 512, load: '5 nN' }];
    const model = modelWith([], { tips: { tip: { ...evenKind([chipping]), blunting: { wear } } }, passes });
    const never = modelWith([], { tips: { tip: { ...evenKind([]), blunting: { wear } } }, passes });
    const alone = newTip(never);
    const before = alone.radius;
    scanOnce(alone, never.passes[0]);
    // Of a tip that does not chip, R³ grows by the same in each part of the scan.
    const growth = alone.radius ** 3 - before ** 3;
    expect(growth).toBeGreaterThan(0);
    const seen = { before: 0, after: 0 };
    for (let replication = 0; replication < 50; replication += 1) {
      const tip = newTip(model, { replication });
      const { outcome, events } = scanOnce(tip, model.passes[0]);
      let [cube, last] = [8 ** 3, 0];
      for (const { at } of events.filter((event) => event.at <= 0.5)) {
        cube = (Math.cbrt(cube + growth * (at - last)) * 1.2) ** 3;
        last = at;
        seen.before += 1;
      }
      seen.after += events.filter((event) => event.at > 0.5).length;
      expect(outcome.radius / Math.cbrt(cube + growth * (0.5 - last))).toBeCloseTo(1, 2);
    }
    expect(Math.min(seen.before, seen.after)).toBeGreaterThan(30);
  });
});

it('a pass asks for the coating of a tip where its signal is electrical, and only there', () => {
  const { settings } = modelWith([], { passes: [{}, { signal: 'electrical' }] });
  expect(settings.plan.passes.map((pass) => demandOf(pass, 1, null).electrical)).toEqual([false, true]);
});
