import { describe, expect, it } from 'vitest';
import type { Raw } from '../support/run.js';
import { after, kind, laidOver, pass } from '../support/scene.js';
import { afterScan, play } from '../support/stage.js';

/** Takes that a review flags, as `image.take`, both from 1. */
const flagging = (...takes: readonly string[]) => ({
  review: (_a: number, _b: number, image: number, running: number) =>
    takes.includes(`${image + 1}.${running + 1}`) ? 0.1 : 0.9,
});
const scans = (names: readonly string[]) => names.filter((name) => name.startsWith('scan')).join(' ');

/** Booked always, operators by day, scanning by night; hours-long scans from Monday afternoon. */
const NIGHT: Raw = {
  plan: { regions: 1, passes: [pass('a', 240), pass('b', 240), pass('c', 240), pass('d', 240), pass('e', 240)] },
  bookings: { start: 'Mo 16:40', unattended: 'scanning' },
  operators: { hours: 'Mo-Fr 09:00-17:00' },
  noticing: { review: { by: 'operator', time: '5 min', falseAlarm: 0.5 } },
};
const night = (over: Raw, script = {}) => play(laidOver(NIGHT, over), script);

describe('the review of an absent operator', () => {
  it('is done on return, oldest first, while a scan runs on; the next step waits for it', () => {
    const { lines } = night({});
    // Scans end at 21:00, 01:00, 05:00 and 09:00; at 09:00 the operator is back, and reviews the three of the night before the one just finished.
    expect(lines.filter((line) => /scan|review/u.test(line))).toEqual([
      'Mon 17:00 scan 1',
      'Mon 21:00 scan 2',
      'Tue 01:00 scan 3',
      'Tue 05:00 scan 4',
      'Tue 09:00 reviewing',
      'Tue 09:05 * late review',
      'Tue 09:10 * late review',
      'Tue 09:15 * late review',
      'Tue 09:15 review',
      'Tue 09:20 scan 5',
      'Tue 13:20 review',
    ]);
  });

  it('goes on beside a running scan, which it does not stop', () => {
    const { lines, outcome } = night({
      bookings: { start: 'Mo 16:39' },
      plan: { passes: [pass('a', 239), pass('b', 250), pass('c', 600), pass('d', 1)] },
    });
    expect(lines.filter((line) => /scan|review/u.test(line))).toEqual([
      'Mon 16:59 scan 1',
      'Mon 20:58 scan 2',
      'Tue 01:08 scan 3',
      'Tue 09:05 * late review',
      'Tue 09:10 * late review',
      'Tue 11:08 review',
      'Tue 11:13 scan 4',
      'Tue 11:14 review',
    ]);
    expect(outcome.split[0].reduce((sum, time) => sum + time, 0)).toBe(outcome.elapsed[0]);
  });

  it('sends a flagged image in place to be taken again next, and changes the tip once for several late flags', () => {
    const { names, outcome } = night({}, flagging('1.1', '3.1'));
    expect(scans(names)).toBe('scan 1 scan 2 scan 3 scan 4 scan 1 scan 3 scan 5');
    expect(outcome).toMatchObject({ tips: 2, takes: 7 });
  });

  it('sends a flagged image of a region left behind to the repeat list, and one in place to be taken next', () => {
    const { names } = night(
      {
        strategies: [{ name: 'one', workflow: 'hop' }],
        plan: {
          order: 'tip-first',
          regions: 2,
          passes: [pass('a', 10), pass('b', 420, { tip: 'soft' }), pass('c', 10, { tip: 'soft' })],
        },
        tips: { soft: kind() },
        bookings: { start: 'Mo 15:00', unattended: 'hopping' },
        workflows: { hop: { chip: { sites: { sharp: 3, soft: 3 } } } },
      },
      flagging('2.1', '5.1'),
    );
    // By night: pass b and c of region 1, pass b of region 2 (draws are numbered by region and pass: 2 and 5).
    expect(scans(names)).toBe('scan 1 scan 2 scan 3 scan 4 scan 5 scan 6 scan 5 scan 3');
  });

  it('decides anew before a change of region: the flagged image in place is taken first, its tip changed without leaving', () => {
    const { names } = night({ plan: { regions: 2, passes: [pass('a', 60), pass('b', 60)] } }, flagging('2.1'));
    expect(afterScan(names, 2)).toEqual([
      'waiting for the operator',
      'reviewing',
      'retract',
      'exchange',
      'align',
      'resonance',
      'approach',
      'relocate',
      'settle',
      'scan 2',
      'review',
      'retract',
      'locate',
      'approach',
      'scan 3',
      'review',
      'scan 4',
      'review',
    ]);
  });

  it('judges the tip only if that same tip is on', () => {
    // Two kinds in turn, hopped unattended: the late flag of the sharp tip meets the soft one on.
    const { names, outcome } = play(
      {
        ...NIGHT,
        strategies: [{ name: 'one', workflow: 'hop' }],
        bookings: { start: 'Mo 16:10', unattended: 'hopping' },
        plan: {
          regions: 1,
          passes: [pass('a', 240), pass('b', 1020, { tip: 'soft' }), pass('c', 10, { tip: 'soft' })],
        },
        tips: { soft: kind() },
        workflows: { hop: { chip: { sites: { sharp: 3, soft: 3 } } } },
      },
      flagging('1.1'),
    );
    expect(scans(names)).toBe('scan 1 scan 2 scan 1 scan 3');
    // The parked sharp tip is used again, and nothing goes.
    expect(outcome.tips).toBe(2);
  });

  it('does not judge a tip that has passed a check since', () => {
    const checked = (every: number) => {
      const { names, outcome } = night({ noticing: { check: { every, time: '1 min' } } }, flagging('1.1'));
      // What is flagged while the instrument waits for it comes before what was due.
      expect(scans(names)).toBe('scan 1 scan 2 scan 3 scan 4 scan 1 scan 5');
      return outcome;
    };
    // Checked after the third scan, so after the flagged one and before its review: image again, same tip.
    expect(checked(3)).toMatchObject({ tips: 1, takes: 6 });
    expect(checked(9)).toMatchObject({ tips: 2, takes: 6 });
  });

  it('does not judge a tip that has been cleaned since', () => {
    // Contaminated in mid-scan at 23:00, once; seen and cleaned by night. The morning's review flags the image before.
    const fouling = after(1.5, {
      cause: 'fouling',
      quality: 0.3,
      life: { distribution: 'exponential', mean: 1.5 / Math.LN2 },
    });
    const { names, outcome } = night(
      {
        plan: { passes: [pass('a', 240), pass('b', 240)] },
        bookings: { unattended: 'hopping' },
        tips: { sharp: kind(fouling) },
        rules: { cleanFirst: { tries: 9, time: '2 min', success: 1, manual: false } },
        noticing: { watch: { by: 'automatic', sensitivity: 1, delay: '2 min' } },
      },
      {
        ...flagging('1.1'),
        life: (_i: number, _k: number, _tip: number, event: number) => (event === 0 ? 0.5 : 0.999),
      },
    );
    expect(scans(names)).toBe('scan 1 scan 2 scan 2 scan 1');
    expect(names.filter((name) => name === 'clean')).toHaveLength(1);
    expect(outcome.tips).toBe(1);
  });

  it('judges the tip also where its image is given up', () => {
    const { names, outcome } = night({ noticing: { attempts: 1 } }, flagging('1.1'));
    expect(scans(names)).toBe('scan 1 scan 2 scan 3 scan 4 scan 5');
    expect(names.indexOf('exchange', names.indexOf('scan 4'))).toBeLessThan(names.indexOf('scan 5'));
    expect(outcome).toMatchObject({ tips: 2, givenUp: 1 });
  });

  it('that flags nothing is an unflagged take: cleaning tries count anew', () => {
    const rules = { cleanFirst: { tries: 1, time: '2 min', success: 0 } };
    // Image 1 is flagged at once and the tip cleaned; its retake passes late; image 3 is flagged late: cleaned again, although
    // no take has passed at once since.
    const four = ['a', 'b', 'c', 'd'].map((name) => pass(name, 240));
    const { names, outcome } = night(
      { plan: { passes: four }, bookings: { start: 'Mo 12:00' }, rules },
      { ...flagging('1.1', '3.1'), cleaning: () => 0.9 },
    );
    expect(names.filter((name) => name === 'clean')).toHaveLength(2);
    expect(outcome.tips).toBe(1);
  });

  it('is left out of total time where it trails, but the data are confirmed only by it', () => {
    const { lines, outcome } = night({ plan: { passes: [pass('a', 240)] } });
    expect(outcome).toMatchObject({ totalTime: 60 * 260, operatorTime: 60 * (10 + 4 + 5), isFinished: true });
    expect(lines.at(-2)).toBe('Tue 09:05 * late review');
    expect(outcome.confirmedAt).toBe(60 * (7 * 60 + 20 + 9 * 60 + 5));
  });

  it('that flags the last image late sends it to be taken again', () => {
    const { lines, outcome } = night({ plan: { passes: [pass('a', 240)] } }, flagging('1.1'));
    expect(lines.filter((line) => /scan|review/u.test(line))).toEqual([
      'Mon 17:00 scan 1',
      'Tue 09:00 reviewing',
      'Tue 09:05 * late review',
      'Tue 09:18 scan 1',
      'Tue 13:18 review',
    ]);
    expect(outcome).toMatchObject({ good: 1, tips: 2, isFinished: true });
    expect(outcome.confirmedAt).toBe(outcome.totalTime);
  });

  it('takes again an image flagged late only if no later take of it is kept', () => {
    // Suspects of a failed check are taken again before the operator flags their first take.
    const { outcome } = night(
      {
        noticing: { check: { every: 3, time: '1 min' } },
        rules: {},
        bookings: { unattended: 'hopping' },
        plan: { passes: [pass('a', 60), pass('b', 60), pass('c', 60)] },
      },
      { ...flagging('1.1'), checkJudgement: () => 0.99 },
    );
    expect(outcome.takesOf).toEqual([2, 1, 1]);
  });
});

describe('after an idle closing', () => {
  it('with nothing left but late reviews the instrument does not open, until a flag sends an image back', () => {
    const office = {
      plan: { passes: [pass('a', 30)] },
      bookings: { hours: 'Mo-Fr 09:00-10:00', start: 'Mo 09:00', unattended: 'scanning' },
      operators: { hours: 'Mo-Fr 09:00-09:45' },
    };
    const sound = night(office);
    expect(sound.lines.at(-2)).toBe('Tue 09:05 * late review');
    expect(sound.names.filter((name) => name === 'warmUp')).toHaveLength(1);
    expect(sound.outcome.totalTime).toBe(60 * 50);
    const { names } = night(office, flagging('1.1'));
    expect(afterScan(names, 1).slice(0, 5)).toEqual([
      'waiting for the operator',
      'waiting for a booking',
      'reviewing',
      'warmUp',
      'exchange',
    ]);
  });

  const OFFICE: Raw = laidOver(NIGHT, {
    bookings: { hours: 'Mo-Fr 09:00-18:00', start: 'Mo 15:00' },
    plan: { regions: 2, passes: [pass('a', 60), pass('b', 60)] },
  });

  it('late flags change what is pending: warm-up, then the change of tip without its retract', () => {
    const { lines } = play(OFFICE, flagging('2.1'));
    expect(lines.slice(-21).filter((line) => !line.includes('*'))).toEqual([
      'Tue 09:05 warmUp',
      'Tue 09:10 exchange',
      'Tue 09:13 align',
      'Tue 09:15 resonance',
      'Tue 09:16 approach',
      'Tue 09:17 relocate',
      'Tue 09:20 settle',
      'Tue 09:22 scan 2',
      'Tue 10:22 review',
      'Tue 10:27 retract',
      'Tue 10:28 locate',
      'Tue 10:32 approach',
      'Tue 10:33 scan 3',
      'Tue 11:33 review',
      'Tue 11:38 scan 4',
      'Tue 12:38 review',
    ]);
  });
});
