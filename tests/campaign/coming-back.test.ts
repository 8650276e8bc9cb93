import { describe, expect, it } from 'vitest';
import { STEP_NUMBER } from '../../src/campaign/steps.js';
import type { Raw } from '../support/run.js';
import { HOPPING, kind, laidOver, pass } from '../support/scene.js';
import { afterScan, play } from '../support/stage.js';

const scans = (names: readonly string[]) => names.filter((name) => name.startsWith('scan')).join(' ');
const count = (names: readonly string[], step: string) => names.filter((name) => name === step).length;
const hop = (over: Raw, script = {}) => play(laidOver(HOPPING, over), script);
const checked = (every: number) => ({
  noticing: { check: { every, time: '1 min', sensitivity: 1, falseAlarm: 0.5 } },
});
/** The first check of the first tip of the first kind fails. */
const once = {
  checkJudgement: (_instrument: number, kindOf: number, tip: number, check: number) =>
    kindOf + tip + check === 0 ? 0.1 : 0.9,
};
/** Two kinds of tip, one region a sample. */
const TWO_KINDS = {
  plan: { samples: 2, regions: 1, passes: [pass('a', 10), pass('b', 10, { tip: 'soft' })] },
  tips: { soft: kind() },
  workflows: { hop: { specimenLoss: 0.01, chip: { sites: { sharp: 4, soft: 4 } } } },
};

describe('after the last sample', () => {
  it('that with the lowest number of those with images due comes on again, and is located anew', () => {
    const { names } = play(laidOver({ plan: { samples: 3 } }, checked(3)), once);
    expect(scans(names)).toBe('scan 1 scan 2 scan 3 scan 3 scan 1 scan 2');
    expect(count(names, 'changeSample')).toBe(4);
    expect(count(names, 'locate')).toBe(5);
  });

  it('a change of sample that loses the specimen lets the region that it is for start afresh', () => {
    // The sharp tip is suspect, so image 1 is taken again after the second sample; image 2, by the soft one, is void then.
    const losing = (occurrence: number) => ({
      ...once,
      specimenLoss: (_instrument: number, step: number, which: number) =>
        step === STEP_NUMBER.changeSample && which === occurrence ? 0.001 : 0.9,
    });
    const over = laidOver(TWO_KINDS, checked(2));
    expect(scans(hop(over, losing(-1)).names)).toBe('scan 1 scan 2 scan 3 scan 3 scan 4 scan 1');
    const lost = hop(over, losing(1));
    expect(scans(lost.names)).toBe('scan 1 scan 2 scan 3 scan 3 scan 4 scan 1 scan 2');
    expect(lost.outcome).toMatchObject({ good: 4, specimens: 3 });
    // Without a spare what was kept stays kept, and so every image is.
    const last = hop(laidOver(over, { stock: { specimens: 2 } }), losing(1));
    expect(scans(last.names)).toBe('scan 1 scan 2 scan 3 scan 3 scan 4');
    expect(last.outcome).toMatchObject({ good: 4, missing: 0, isFinished: true });
  });
});

describe('a change to another place that has begun', () => {
  // By night the tip is retracted; what comes next needs hands. In the morning the late review flags what was left.
  const NIGHT = {
    plan: { passes: [pass('a', 30)] },
    workflows: { hop: { prepareAt: 'bench' } },
    bookings: { start: 'Mo 16:10', unattended: 'hopping' },
    operators: { hours: 'Mo-Fr 09:00-17:00' },
    noticing: { review: { by: 'operator', time: '5 min', falseAlarm: 0.5 } },
  };
  const flagged = {
    review: (_a: number, _b: number, image: number, running: number) => (image + running === 0 ? 0.1 : 0.9),
  };

  it.each([
    ['sample', { samples: 2, regions: 1 }],
    ['region', { regions: 2 }],
  ])('is gone through with: the flagged image of the %s that was left waits on the repeat list', (_, plan) => {
    const { lines, names } = hop(laidOver(NIGHT, { plan }), flagged);
    expect(lines).toEqual(expect.arrayContaining(['Mon 17:00 retract', 'Tue 09:05 * late review']));
    expect(scans(names)).toBe('scan 1 scan 2 scan 1');
  });
});

describe('a change of sample', () => {
  it('together with a change of kind comes in hop after the coarse move', () => {
    expect(afterScan(hop(TWO_KINDS).names, 2).slice(1, 12)).toEqual([
      'retract',
      'offset',
      'coarseMove',
      'prepare',
      'changeSample',
      'align',
      'resonance',
      'locate',
      'approach',
      'resonance',
      'settle',
    ]);
  });

  it('leaves parked tips and the chip where they are', () => {
    expect(play(TWO_KINDS).outcome).toMatchObject({ tips: 2, good: 4 });
    expect(hop(TWO_KINDS).outcome).toMatchObject({ tips: 2, chips: 1, good: 4 });
  });

  it('may lose the specimen, set-up and preparing never', () => {
    const never = [STEP_NUMBER.approach, STEP_NUMBER.changeSample];
    const { outcome } = hop(TWO_KINDS, {
      specimenLoss: (_instrument: number, step: number) => (never.some((number) => number === step) ? 0.9 : 0.001),
    });
    expect(outcome).toMatchObject({ good: 4, specimens: 2 });
  });

  it('of any sample is served by the same spares', () => {
    for (const occurrence of [0, 1]) {
      const { outcome } = hop(laidOver(TWO_KINDS, { plan: { passes: [pass('a', 10)] }, stock: { specimens: 3 } }), {
        specimenLoss: (_instrument: number, step: number, which: number) =>
          step === STEP_NUMBER.approach && which === occurrence ? 0.001 : 0.9,
      });
      expect(outcome).toMatchObject({ good: 2, specimens: 3, isFinished: true });
    }
  });
});
