import { describe, expect, it } from 'vitest';
import type { Raw } from '../support/run.js';
import { after, HOPPING, kind, laidOver, pass } from '../support/scene.js';
import { play } from '../support/stage.js';

const OFFICE = { hours: 'Mo-Fr 09:00-10:00', start: 'Mo 09:00' };
const images = (...minutes: readonly number[]) => minutes.map((time, i) => pass(`image ${i + 1}`, time));
const steps = (lines: readonly string[]) => lines.filter((line) => !line.includes('*'));

describe('bookings', () => {
  it('start the experiment at their first opening of the week', () => {
    expect(play({ bookings: { hours: 'We-Fr 08:30-12:00' } }).lines[0]).toBe('Wed 08:30 setUp');
  });

  it('let a scan start only if it fits into what is left, exactly too', () => {
    const at = (second: number) =>
      steps(play({ plan: { passes: images(10, second) }, bookings: OFFICE }).lines).slice(4);
    // 30 minutes are left after the first; an automatic review of the second has then to wait for the next booking.
    expect(at(30)).toEqual([
      'Mon 09:20 scan 1',
      'Mon 09:30 review',
      'Mon 09:30 scan 2',
      'Mon 10:00 waiting for a booking',
      'Tue 09:00 warmUp',
      'Tue 09:05 review',
    ]);
    expect(at(31)).toEqual([
      'Mon 09:20 scan 1',
      'Mon 09:30 review',
      'Mon 09:30 waiting for a booking',
      'Tue 09:00 warmUp',
      'Tue 09:05 approach',
      'Tue 09:06 relocate',
      'Tue 09:09 scan 2',
      'Tue 09:40 review',
    ]);
  });

  it('let any other step start, and count what it takes past the booking as overrun', () => {
    const { lines, outcome } = play({
      plan: { passes: images(35, 10) },
      rules: { after: '1 image' },
      workflows: { swap: { steps: { exchange: '10 min' } } },
      bookings: OFFICE,
      costs: { instrumentHour: '60 EUR' },
    });
    // Scanned until 09:55; the exchange runs from 09:56 until 10:06, and what is pending goes on the next day, warmed up.
    expect(steps(lines).slice(5)).toEqual([
      'Mon 09:55 review',
      'Mon 09:55 retract',
      'Mon 09:56 exchange',
      'Mon 10:06 waiting for a booking',
      'Tue 09:00 warmUp',
      'Tue 09:05 align',
      'Tue 09:07 resonance',
      'Tue 09:08 approach',
      'Tue 09:09 relocate',
      'Tue 09:12 settle',
      'Tue 09:14 scan 2',
      'Tue 09:24 review',
    ]);
    expect(outcome).toMatchObject({ overrun: 360, instrumentTime: 60 * 84, totalTime: 60 * (24 * 60 + 24) });
    expect(outcome.cost).toBeCloseTo(84 + 6, 9);
  });

  it('end the experiment, unfinished, where a hundred of them in a row come to nothing after warming up', () => {
    const { outcome, lines } = play({
      plan: { passes: images(8) },
      // Whoever approaches by hand has left before it is warm.
      workflows: { swap: { steps: { approach: { manual: true } } } },
      operators: { hours: 'Mo-Fr 09:00-09:04' },
      bookings: { hours: 'Mo-Fr 09:00-09:20', start: 'Mo 09:00' },
    });
    expect(outcome).toMatchObject({ isFinished: false, takes: 0, missing: 1 });
    expect(lines.filter((line) => line.includes('warmUp')).length).toBeGreaterThanOrEqual(100);
  });

  it('may be any number, as long as one in a hundred comes to something', () => {
    const { outcome } = play({
      plan: { regions: 65, passes: images(40, 40) },
      bookings: { hours: 'Mo-Fr 09:00-10:00', start: 'Mo 09:00' },
    });
    expect(outcome).toMatchObject({ isFinished: true, good: 130 });
  });

  it('over whose closing the instrument stood idle open with what is pending, a change of tip without its retract', () => {
    const { lines } = play({
      plan: { passes: images(40, 10) },
      rules: { after: '1 image' },
      bookings: OFFICE,
      noticing: { review: { time: '1 min' } },
    });
    // The review of 10:00 is past the booking: it opens the next day, warmed up, and then the change of tip without its retract.
    expect(steps(lines).slice(4, 12)).toEqual([
      'Mon 09:20 scan 1',
      'Mon 10:00 waiting for a booking',
      'Tue 09:00 warmUp',
      'Tue 09:05 review',
      'Tue 09:06 exchange',
      'Tue 09:09 align',
      'Tue 09:11 resonance',
      'Tue 09:12 approach',
    ]);
  });

  it('over whose closing the instrument stood idle open with a pending change of region without its retract', () => {
    const { lines } = play({
      plan: { regions: 2, passes: images(40) },
      bookings: OFFICE,
      noticing: { review: { by: 'nobody' } },
    });
    expect(steps(lines).slice(4)).toEqual([
      'Mon 09:20 scan 1',
      'Mon 10:00 waiting for a booking',
      'Tue 09:00 warmUp',
      'Tue 09:05 locate',
      'Tue 09:09 approach',
      'Tue 09:10 scan 2',
    ]);
  });

  it('that touch are one: nothing stands idle', () => {
    const { names } = play({
      plan: { passes: images(50, 50) },
      bookings: { hours: 'Mo 09:00-10:00,10:00-12:00', start: 'Mo 09:00' },
    });
    expect(names.filter((name) => name === 'warmUp')).toHaveLength(1);
  });

  it('after which an operator who is still there reviews, outside the booking, hold up no total time', () => {
    const { lines, outcome } = play({
      plan: { passes: images(40) },
      bookings: OFFICE,
      noticing: { review: { by: 'operator', time: '5 min' } },
    });
    expect(lines.at(-2)).toBe('Mon 10:05 * late review');
    expect(outcome).toMatchObject({ totalTime: 3600, confirmedAt: 3900, overrun: 0, isFinished: true });
  });

  it('too short ever to let a scan start after warming up end the experiment', () => {
    // Warming up may take no time at all, so the file is without fault; but here it always takes 17.6 minutes.
    const warmUp = { min: '0 min', mode: '0 min', max: '60 min' };
    const { outcome } = play({
      plan: { passes: images(50) },
      bookings: OFFICE,
      workflows: { swap: { steps: { warmUp } } },
    });
    expect(outcome).toMatchObject({ isFinished: false, missing: 1, takes: 0 });
    expect(outcome.totalTime).toBeGreaterThan(0);
  });
});

describe('granted time', () => {
  it('cuts the experiment at its end; the uncut one goes on', () => {
    const { outcome } = play({
      plan: { passes: images(10, 25, 10) },
      bookings: { ...OFFICE, allocation: '1 session' },
    });
    expect(outcome).toMatchObject({ good: 3, missing: 0, yield: 1, isFinished: true });
    expect(outcome.cut).toEqual({
      yield: 2 / 3,
      apparentYield: 2 / 3,
      undetectedBadShare: 0,
      good: 2,
      undetectedBad: 0,
      givenUp: 0,
      missing: 1,
      tips: 1,
      isFinished: false,
    });
  });

  it('is measured in hours inside bookings where it is granted in hours', () => {
    // 1.5 h end on Tuesday at 09:30; the last scan ends at 09:19 or 09:31.
    const at = (last: number) =>
      play({ plan: { passes: images(10, 25, last) }, bookings: { ...OFFICE, allocation: '1.5 h' } }).outcome.cut;
    expect(at(10)).toMatchObject({ good: 3, isFinished: true });
    expect(at(22)).toMatchObject({ good: 2, missing: 1, isFinished: false });
  });

  it('is over before late reviews that come after it: what they flag counts as it was', () => {
    const { outcome } = play(
      {
        plan: { passes: images(40) },
        bookings: { ...OFFICE, allocation: '1 session', unattended: 'scanning' },
        operators: { hours: 'Mo-Fr 09:00-10:00' },
        noticing: { review: { by: 'operator', time: '5 min', falseAlarm: 0.5 } },
      },
      { review: () => 0.1 },
    );
    expect(outcome.cut).toMatchObject({ good: 1, isFinished: false });
    expect(outcome).toMatchObject({ good: 0, givenUp: 1, takes: 4 });
  });
});

describe('hours without an operator', () => {
  const BASE: Raw = {
    plan: { regions: 1, passes: [pass('a', 30), pass('b', 30), pass('c', 30)] },
    bookings: { hours: 'always', start: 'Mo 16:00' },
    operators: { hours: 'Mo-Fr 09:00-17:00' },
  };
  const at = (over: Raw) => steps(play(laidOver(BASE, over)).lines);

  it('let nothing start, unless the scenario says otherwise; what has started is finished', () => {
    expect(at({ bookings: { unattended: 'none' } }).slice(4)).toEqual([
      'Mon 16:20 scan 1',
      'Mon 16:50 review',
      'Mon 16:50 scan 2',
      'Mon 17:20 waiting for the operator',
      'Tue 09:00 review',
      'Tue 09:00 scan 3',
      'Tue 09:30 review',
    ]);
  });

  it('let scans, automatic reviews and checks start where scanning goes unattended', () => {
    expect(
      at({ bookings: { unattended: 'scanning' }, noticing: { check: { every: 1, time: '3 min' } } }).slice(7),
    ).toEqual([
      'Mon 16:53 scan 2',
      'Mon 17:23 review',
      'Mon 17:23 check',
      'Mon 17:26 scan 3',
      'Mon 17:56 review',
      'Mon 17:56 check',
    ]);
  });

  it('let no manual check start', () => {
    expect(
      at({
        bookings: { unattended: 'scanning' },
        noticing: { check: { every: 1, time: '3 min', manual: true } },
      }).slice(8, 11),
    ).toEqual(['Mon 17:23 review', 'Mon 17:23 waiting for the operator', 'Tue 09:00 check']);
  });

  it('let warm-up, approach and registering resume a region, if they are not manual', () => {
    const booked = {
      bookings: { hours: 'Mo-Fr 07:00-17:00', start: 'Mo 16:00', unattended: 'scanning' },
      plan: { passes: [pass('a', 30), pass('b', 30)] },
    };
    const swap = (manual: boolean) =>
      at({ ...booked, workflows: { swap: { steps: { relocate: { fixed: '3 min', success: 1, manual } } } } }).slice(6);
    expect(swap(false)).toEqual([
      'Mon 16:50 waiting for a booking',
      'Tue 07:00 warmUp',
      'Tue 07:05 approach',
      'Tue 07:06 relocate',
      'Tue 07:09 scan 2',
      'Tue 07:39 review',
    ]);
    expect(swap(true).slice(2)).toEqual([
      'Tue 07:05 approach',
      'Tue 07:06 waiting for the operator',
      'Tue 09:00 relocate',
      'Tue 09:03 scan 2',
      'Tue 09:33 review',
    ]);
  });

  it('let whole hops start where hopping goes unattended, but no retract, offset or look where only scanning does', () => {
    const hop = (unattended: string) =>
      at({
        ...HOPPING,
        plan: { passes: [pass('a', 30), pass('b', 30)] },
        rules: { after: '1 image' },
        bookings: { start: 'Mo 15:40', unattended },
      }).slice(5);
    expect(hop('hopping')).toEqual([
      'Mon 16:30 scan 1',
      'Mon 17:00 review',
      'Mon 17:00 retract',
      'Mon 17:01 offset',
      'Mon 17:02 approach',
      'Mon 17:03 resonance',
      'Mon 17:04 settle',
      'Mon 17:06 register',
      'Mon 17:08 scan 2',
      'Mon 17:38 review',
    ]);
    expect(hop('scanning').slice(1, 4)).toEqual([
      'Mon 17:00 review',
      'Mon 17:00 waiting for the operator',
      'Tue 09:00 retract',
    ]);
  });

  it('stop a hop at what needs hands: a chip exchange, or locating a new region', () => {
    const over = { ...HOPPING, rules: { after: '1 image' }, bookings: { start: 'Mo 15:40', unattended: 'hopping' } };
    expect(at({ ...over, plan: { regions: 2, passes: [pass('a', 30)] } }).slice(7, 11)).toEqual([
      'Mon 17:00 retract',
      'Mon 17:01 offset',
      'Mon 17:02 waiting for the operator',
      'Tue 09:00 locate',
    ]);
    expect(
      at({
        ...over,
        plan: { passes: [pass('a', 30), pass('b', 30)] },
        workflows: { hop: { prepareAt: 'instrument', chip: { sites: { sharp: 1 } } } },
      }).slice(7, 10),
    ).toEqual(['Mon 17:00 retract', 'Mon 17:01 waiting for the operator', 'Tue 09:00 chipExchange']);
  });

  it('hold cleaning up, unless the scenario says that it needs no hands', () => {
    const over = (manual: boolean) => ({
      plan: { passes: [pass('a', 60)] },
      tips: { sharp: kind(after(0.5, { cause: 'fouling', quality: 0.1 })) },
      rules: { cleanFirst: { tries: 1, time: '2 min', success: 1, manual } },
      noticing: { attempts: 2 },
      bookings: { unattended: 'hopping' },
    });
    expect(at(over(true)).slice(5, 8)).toEqual([
      'Mon 17:20 review',
      'Mon 17:20 waiting for the operator',
      'Tue 09:00 clean',
    ]);
    expect(at(over(false)).slice(5, 7)).toEqual(['Mon 17:20 review', 'Mon 17:20 clean']);
  });
});
