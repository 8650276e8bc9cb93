import { describe, expect, it } from 'vitest';
import type { Raw } from '../support/run.js';
import { HOPPING, laidOver, pass } from '../support/scene.js';
import { play } from '../support/stage.js';
import { nonEmpty } from '../support/non-empty.js';

/** Steps and waits from a moment on. */
const from = (lines: readonly string[], first: string) =>
  lines.slice(lines.indexOf(first)).filter((line) => !line.includes('*'));
const split = (over: Raw, script = {}) => play(over, script).outcome.split[0].map((part) => part / 60e6);
const [REVIEWING, BOOKING, STOCK, OPERATOR] = [2, 10, 11, 12];

describe('10. one operator at two instruments, reviews by the operator', () => {
  const PLAN = {
    instruments: 2,
    plan: { regions: 2, passes: [pass('a', 5), pass('b', 5)] },
    noticing: { review: { by: 'operator', time: '4 min', sensitivity: 1, falseAlarm: 0 } },
    workflows: { swap: { steps: { locate: '9 min' } } },
  };

  it('starts every step when worked out by hand, reviews that wait for the busy operator among them', () => {
    const { minutes } = play(PLAN);
    expect(minutes.lines(0).filter((line) => !line.includes('*'))).toEqual([
      'Mon 00:00 setUp',
      'Mon 00:10 warmUp',
      'Mon 00:15 waiting for the operator',
      'Mon 00:20 locate',
      'Mon 00:29 approach',
      'Mon 00:30 scan 1',
      'Mon 00:35 waiting for the operator',
      'Mon 00:38 review',
      'Mon 00:42 scan 2',
      'Mon 00:47 waiting for the operator',
      'Mon 00:48 review',
    ]);
    expect(minutes.lines(1).filter((line) => !line.includes('*'))).toEqual([
      'Mon 00:00 waiting for the operator',
      'Mon 00:10 setUp',
      'Mon 00:20 warmUp',
      'Mon 00:25 waiting for the operator',
      'Mon 00:29 locate',
      'Mon 00:38 approach',
      'Mon 00:39 scan 3',
      'Mon 00:44 review',
      'Mon 00:48 scan 4',
      'Mon 00:53 review',
    ]);
  });

  it('leaves a review for later where the hours end while it waits', () => {
    const { minutes } = play({
      ...PLAN,
      operators: { hours: 'Mo 00:00-00:37; Tu 09:00-17:00' },
      bookings: { unattended: 'scanning', start: 'Mo 00:00' },
    });
    expect(minutes.lines(0)).toEqual(
      expect.arrayContaining(['Mon 00:35 waiting for the operator', 'Mon 00:37 scan 2']),
    );
    expect(minutes.lines(0)).not.toContain('Mon 00:37 review');
  });
});

describe('an instrument that stands idle over a closing', () => {
  const LONG = (minutes: number) => ({
    plan: { regions: 2, passes: [pass('a', minutes)] },
    noticing: { review: { by: 'nobody' } },
    operators: { hours: 'Mo-Fr 09:00-17:00' },
    bookings: { hours: 'Mo-Fr 08:00-22:00', start: 'Mo 09:00', unattended: 'scanning' },
  });

  // 12 h 40 min from 09:20 end at the closing, one minute less inside the booking: the wait for the operator begins there.
  it.each([759, 760])(
    'opens at the opening, whether its last scan ends at the closing or before: %i min',
    (minutes) => {
      const { lines } = play(LONG(minutes));
      expect(from(lines, 'Tue 08:00 warmUp').slice(0, 4)).toEqual([
        'Tue 08:00 warmUp',
        'Tue 08:05 waiting for the operator',
        'Tue 09:00 locate',
        'Tue 09:04 approach',
      ]);
    },
  );

  it('opens when somebody is there, where warm-up may not run unattended', () => {
    const { lines } = play(laidOver(LONG(759), { bookings: { unattended: 'none' } }));
    expect(from(lines, 'Tue 08:00 waiting for the operator').slice(0, 3)).toEqual([
      'Tue 08:00 waiting for the operator',
      'Tue 09:00 warmUp',
      'Tue 09:05 locate',
    ]);
  });

  it('opens at every opening while it waits for a delivery, which is clearly different from closed hours', () => {
    const { lines } = play({
      plan: { passes: [pass('a', 10), pass('b', 10)] },
      rules: { after: '1 image' },
      stock: { tips: { sharp: { atHand: 1, restock: '49 h' } } },
      bookings: { hours: 'Mo-Fr 09:00-17:00' },
    });
    expect(from(lines, 'Mon 09:30 review').slice(0, 9)).toEqual([
      'Mon 09:30 review',
      'Mon 09:30 retract',
      'Mon 09:31 waiting for stock',
      'Mon 17:00 waiting for a booking',
      'Tue 09:00 warmUp',
      'Tue 09:05 waiting for stock',
      'Tue 17:00 waiting for a booking',
      'Wed 09:00 warmUp',
      'Wed 09:05 waiting for stock',
    ]);
    expect(lines).toContain('Wed 10:00 exchange');
  });

  it('counts as waiting for stock while that and an operator are lacking, then as waiting for the operator', () => {
    const { lines } = play({
      plan: { passes: [pass('a', 10), pass('b', 10)] },
      rules: { after: '1 image' },
      stock: { tips: { sharp: { atHand: 1, restock: '3 h' } } },
      bookings: { start: 'Mo 09:00' },
      operators: { hours: 'Mo-Fr 09:00-10:00' },
    });
    expect(from(lines, 'Mon 09:31 waiting for stock').slice(0, 3)).toEqual([
      'Mon 09:31 waiting for stock',
      'Mon 12:00 waiting for the operator',
      'Tue 09:00 exchange',
    ]);
  });

  it('waits for a specimen through the night as for stock, since the bench needs no booking', () => {
    const over = laidOver(HOPPING, {
      workflows: { hop: { prepareAt: 'bench', specimenLoss: 0.01 } },
      stock: { specimens: { atHand: 1, restock: '25 h' } },
      bookings: { hours: 'Mo-Fr 09:00-17:00' },
      operators: { hours: 'Mo-Fr 09:00-17:00' },
    });
    const lost = { specimenLoss: (_i: number, _s: number, occurrence: number) => (occurrence === 0 ? 0.001 : 0.9) };
    expect(from(play(over, lost).lines, 'Mon 09:20 waiting for stock').slice(0, 6)).toEqual([
      'Mon 09:20 waiting for stock',
      'Tue 09:00 warmUp',
      'Tue 09:05 waiting for stock',
      'Tue 10:00 prepare',
      'Tue 10:30 locate',
      'Tue 10:34 approach',
    ]);
    expect(split(over, lost)[STOCK]).toBe(24 * 60 - 20 + 55);
  });
});

describe('late reviews', () => {
  it('outside bookings are waiting for a booking of the instrument, not reviewing', () => {
    const over = {
      plan: { passes: [pass('a', 160), pass('b', 10)] },
      noticing: { review: { by: 'operator', time: '30 min', sensitivity: 1, falseAlarm: 0 } },
      operators: { hours: 'Mo 08:00-12:00,13:00-18:00' },
      bookings: { hours: 'Mo 09:00-12:00,14:00-17:00' },
    };
    const { lines, minutes } = play(over);
    expect(minutes.lateReviews).toEqual([13.5 * 60 * 60e6]);
    expect(from(lines, 'Mon 12:00 waiting for a booking').slice(0, 2)).toEqual([
      'Mon 12:00 waiting for a booking',
      'Mon 14:00 warmUp',
    ]);
    // The second image is reviewed at once.
    expect([REVIEWING, BOOKING, OPERATOR].map((part) => split(over)[part])).toEqual([30, 120, 0]);
  });
});

describe('the cut at the end of the allocation', () => {
  const cut = (allocation: string, over: Raw, script = {}) =>
    play(laidOver(over, { bookings: { allocation } }), script).outcome.cut;

  it('finishes a review that runs, and starts none', () => {
    const flagged = { noticing: { review: { time: '15 min', falseAlarm: 0.5 } } };
    const first = { review: (_a: number, _b: number, _image: number, running: number) => (running === 0 ? 0.1 : 0.9) };
    // Scanned from 20 to 30 min, reviewed to 45 min.
    expect(cut('0.5 h', flagged, first)).toMatchObject({ good: 1, missing: 0 });
    expect(cut('0.65 h', flagged, first)).toMatchObject({ good: 0, missing: 1 });
  });

  it('counts a tip whose exchange runs', () => {
    const plan = { plan: { passes: [pass('a', 10), pass('b', 10)] }, rules: { after: '1 image' } };
    // Retracted from 30 to 31 min, exchanged to 34 min.
    expect([0.5, 0.51, 0.55, 0.6].map((hours) => cut(`${hours} h`, plan)?.tips)).toEqual([1, 1, 2, 2]);
  });
});

describe('parked tips', () => {
  it('may be any number; an image gets the one parked last of those that it accepts', () => {
    const { outcome } = play({
      plan: {
        passes: [
          pass('a', 10),
          pass('b', 10, { critical: true }),
          pass('c', 10, { tip: 'soft' }),
          pass('d', 10),
          pass('e', 10, { critical: true }),
        ],
      },
      tips: { soft: { radius: { nominal: '10 nm', geometricSd: 1 } } },
    });
    const uses = outcome.tipRecords.map(({ kind, number, use }) => `${kind} ${number}: ${use.images}`).sort();
    expect(uses).toEqual(['sharp 0: 1', 'sharp 1: 2', 'sharp 2: 1', 'soft 0: 1']);
    expect(nonEmpty(outcome.tipRecords).every(({ went }) => went === 'end of the experiment')).toBe(true);
  });
});
