import { describe, expect, it } from 'vitest';
import { LuckTable } from '../../src/chance/luck.js';
import type { TipEvent } from '../../src/probe/scan-watch.js';
import { Tip } from '../../src/probe/tip.js';
import { evenKind } from '../support/scene.js';
import { modelWith, newTip, SCAN, scanOnce } from './support.js';

const perImage = (cause: string, mean: number, more: object = {}) => ({
  ...{ cause, per: 'image', life: { distribution: 'exponential', mean } },
  ...more,
});
const CHIPPING = perImage('chipping', 1, { radiusFactor: { median: 1.2, geometricSd: 1.1 } });
const FOULING = perImage('fouling', 2, { quality: 0.5, clears: 3 });
const SOON = 0.02;

describe('a tip taken up as it was written down', () => {
  const kind = {
    ...evenKind([
      ...[CHIPPING, FOULING, perImage('coating', 5), perImage('worn-out', 6, { quality: 0.8 })],
      { cause: 'breakage', per: 'approach', life: { distribution: 'exponential', mean: 9 } },
      perImage('fouling', 4, { quality: 0.7, clears: 'never' }),
    ]),
    blunting: { wear: { archardK: 0.001, hardness: '12 GPa', geometricSd: 1.4 } },
  };
  const model = modelWith([], { tips: { tip: kind }, passes: [{ size: '1 um', lines: 512, load: '1 nN' }] });
  const [pass] = model.passes;

  function used(tip: Tip, from: number, images: number) {
    return Array.from({ length: images }, (_, image) => {
      const time = (from + image) * SCAN;
      if ((from + image) % 3 === 0) tip.approach(pass, time);
      tip.scansSinceCheck += 1;
      const { outcome, events } = scanOnce(tip, pass, { electrical: image % 2 === 0, start: time });
      return {
        outcome,
        events,
        starts: [tip.stateNow(false), tip.stateNow(true)],
        mark: tip.mark,
      };
    });
  }

  it('goes on to the bit as the one that was never put down, with all that it has on it', () => {
    const seen = new Set<string>();
    for (let replication = 0; replication < 24; replication += 1) {
      for (const images of [0, 1, 2, 5, 9]) {
        const tip = newTip(model, { replication });
        used(tip, 0, images);
        tip.checks = 2;
        tip.cleanings = 3;
        tip.reconditionings = 1;
        tip.isBlunt = images > 1;
        const state = tip.state;
        const luck = new LuckTable('tips').replication(replication);
        const again = new Tip(model.kinds[0], 0, 0, luck, structuredClone(state));
        expect(again.state).toEqual(state);
        expect(used(again, images, 8)).toEqual(used(tip, images, 8));
        expect(again.state).toEqual(tip.state);
        // What was written down stays as it was.
        expect(state.use.images).toBe(images);
        for (const flag of ['broken', 'uncoated', 'isChipped', 'isBlunt'] as const)
          seen.add(`${flag} ${String(state[flag])}`);
        for (const { marked, clearsIn } of state.hazards) seen.add(`${String(marked)} ${String(clearsIn === null)}`);
      }
    }
    // The tips were of all sorts: each flag was off and on, marks that clear and marks that never do.
    expect(seen.size).toBe(12);
  });
});

describe('what is on a tip', () => {
  const flags = ({ broken, uncoated, isBlunt, isChipped, mark }: Tip) => ({
    ...{ broken, uncoated, isBlunt, isChipped, mark },
  });
  const CLEAN = { broken: false, uncoated: false, isBlunt: false, isChipped: false, mark: null };

  it.each([
    ['breakage', {}, { broken: true }],
    ['coating', {}, { uncoated: true }],
    ['chipping', { radiusFactor: { median: 1.0001, geometricSd: 1 } }, { isChipped: true }],
    ['fouling', { quality: 0.5, clears: 'never' }, { mark: 'fouled' }],
    ['worn-out', { quality: 0.5 }, { mark: 'worn-out' }],
  ] as const)('is nothing when it is new, and %s alone after that', (cause, more, mark) => {
    // A second hazard, which does not strike, is not taken for the first.
    const rest = cause === 'fouling' || cause === 'worn-out' ? perImage('coating', 1e9) : FOULING;
    const model = modelWith([
      perImage(cause, SOON, more),
      { ...rest, life: { distribution: 'exponential', mean: 1e9 } },
    ]);
    const tip = newTip(model);
    expect(flags(tip)).toEqual(CLEAN);
    scanOnce(tip, model.passes[0]);
    expect(flags(tip)).toEqual({ ...CLEAN, ...mark });
    expect(tip.spoiled?.cause).toBe(cause);
  });

  it('goes with the apex where that is made anew, and a worn tip stays worn', () => {
    const model = modelWith(
      [CHIPPING, FOULING, perImage('worn-out', SOON, { quality: 0.5 })].map((one) => ({
        ...one,
        life: { distribution: 'exponential', mean: 0.1 },
      })),
    );
    const tip = newTip(model);
    scanOnce(tip, model.passes[0]);
    tip.isBlunt = true;
    tip.renewApex(0);
    expect(flags(tip)).toEqual({ ...CLEAN, mark: 'worn-out' });
  });

  it('is a break by other hands than a hazard’s, too; the first thing that spoiled it stays on record', () => {
    const model = modelWith([]);
    const tip = newTip(model);
    scanOnce(tip, model.passes[0]);
    tip.break('mishandling', 7);
    tip.markSpoiled('fouling', 9);
    expect(flags(tip)).toEqual({ ...CLEAN, broken: true });
    expect(tip.spoiled).toEqual({ cause: 'mishandling', time: 7, use: { ...tip.use } });
  });

  it('is used by what was scanned of an image: images, hours, path', () => {
    const model = modelWith([perImage('fouling', SOON, { quality: 0.5, clears: 'never' })]);
    const [pass] = model.passes;
    const tip = newTip(model);
    const { outcome } = scanOnce(tip, pass, { stopsAt: () => 0.25 });
    expect(outcome).toMatchObject({ done: 0.25, stoppedBy: 'fouling' });
    expect(tip.use.hours).toBeCloseTo(0.25 / 60, 12);
    scanOnce(tip, pass);
    expect(tip.use.images).toBe(1.25);
    expect(tip.use.hours).toBeCloseTo(1.25 / 60, 12);
    expect(tip.use.path).toBeCloseTo(1.25 * pass.path, 12);
  });

  it('comes in order: events of a scan are numbered from 0', () => {
    const model = modelWith([{ ...CHIPPING, life: { distribution: 'exponential', mean: 0.2 } }]);
    const seen: TipEvent[] = [];
    for (let scan = 0; scan < 3; scan += 1) {
      const { events } = scanOnce(newTip(model, { replication: scan }), model.passes[0]);
      expect(events.map(({ ordinal }) => ordinal)).toEqual(Array.from(events.keys()));
      seen.push(...events);
    }
    expect(seen.length).toBeGreaterThan(6);
  });
});
