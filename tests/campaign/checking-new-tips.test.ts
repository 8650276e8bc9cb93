import { describe, expect, it } from 'vitest';
import { STEP_NUMBER } from '../../src/campaign/steps.js';
import type { Raw } from '../support/run.js';
import { after, HOPPING, kind, laidOver, pass } from '../support/scene.js';
import { afterScan, play } from '../support/stage.js';

/** Every new tip is checked, and none later. */
const onNew = (over: Raw, script = {}) =>
  play(
    laidOver({ noticing: { check: { every: 99, time: '3 min', sensitivity: 1, falseAlarm: 0, onNew: true } } }, over),
    script,
  );
const events = (names: readonly string[]) =>
  names.filter((name) => /^(scan|check|exchange|recond)/u.test(name)).join(' ');
const EACH_IMAGE_A_TIP = { plan: { passes: [pass('a', 10), pass('b', 10)] }, rules: { after: '1 image' } };

describe('a check of each new tip', () => {
  it('comes once tip and region are in place and settled, though the scan may have to wait, and only once', () => {
    // 45 min do not fit into the 37 that are left.
    const { lines } = onNew({
      plan: { passes: [pass('a', 45)] },
      bookings: { hours: 'Mo-Fr 09:00-10:00', start: 'Mo 09:00' },
    });
    expect(lines.slice(lines.indexOf('Mon 09:19 approach')).filter((line) => !line.includes('*'))).toEqual([
      'Mon 09:19 approach',
      'Mon 09:20 check',
      'Mon 09:23 waiting for a booking',
      'Tue 09:00 warmUp',
      'Tue 09:05 approach',
      'Tue 09:06 relocate',
      'Tue 09:09 scan 1',
      'Tue 09:54 review',
    ]);
    expect(afterScan(onNew(EACH_IMAGE_A_TIP).names, 1).slice(-5)).toEqual([
      'relocate',
      'settle',
      'check',
      'scan 2',
      'review',
    ]);
    expect(afterScan(onNew(laidOver(HOPPING, EACH_IMAGE_A_TIP)).names, 1).slice(-5)).toEqual([
      'settle',
      'register',
      'check',
      'scan 2',
      'review',
    ]);
  });

  it('is none of a tip that was reconditioned', () => {
    const { names } = onNew(
      {
        plan: { passes: [pass('a', 10), pass('b', 10)] },
        tips: { sharp: kind(after(1.5, { cause: 'fouling', quality: 0.1 })) },
        rules: { recondition: { tries: 1, time: '4 min', newApex: 0.3, breaks: 0.1 } },
      },
      { reconditioning: () => 0.2 },
    );
    expect(events(names)).toBe('check scan 1 scan 2 recondition scan 2');
  });

  it('is no scan: a critical pass starts on the tip that was checked', () => {
    const { names } = onNew({ plan: { passes: [pass('a', 10), pass('b', 10, { critical: true })] } });
    expect(events(names)).toBe('check scan 1 exchange check scan 2');
  });

  it('comes also to a tip that was parked before its first scan, when that is due', () => {
    // The first approach with the soft tip loses the specimen, so that the image of the sharp one is due again.
    const { names } = onNew(
      laidOver(HOPPING, {
        plan: { passes: [pass('a', 10), pass('b', 10, { tip: 'soft' })] },
        tips: { soft: kind() },
        workflows: { hop: { specimenLoss: 0.01, chip: { sites: { sharp: 4, soft: 4 } } } },
      }),
      {
        specimenLoss: (_instrument: number, step: number, occurrence: number) =>
          step === STEP_NUMBER.approach && occurrence === 1 ? 0.001 : 0.9,
      },
    );
    expect(events(names)).toBe('check scan 1 scan 1 check scan 2');
  });
});

describe('what a check judges', () => {
  it('leaves drift out', () => {
    // 1 nm/s that decays in 10 min displaces an image of 10 min by hundreds of nanometres, of which 1 is borne.
    const { names, outcome } = play({
      plan: { passes: [pass('a', 10, { driftTolerance: '1 nm' }), pass('b', 10, { driftTolerance: '1 nm' })] },
      workflows: { swap: { drift: { handling: { rate: '1 nm/s', geometricSd: 1, decay: '10 min' } } } },
      noticing: { review: { by: 'nobody' }, check: { every: 1, time: '3 min', sensitivity: 1, falseAlarm: 0 } },
    });
    expect(events(names)).toBe('scan 1 check scan 2 check');
    expect(outcome).toMatchObject({ undetectedBad: 2, tips: 1 });
  });
});
