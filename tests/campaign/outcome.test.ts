import { describe, expect, it } from 'vitest';
import { ACTIVITIES } from '../../src/campaign/activities.js';
import { after, HOPPING, kind, laidOver, pass } from '../support/scene.js';
import { play } from '../support/stage.js';

describe('measures of a replication', () => {
  it('weigh yields by what an image is worth; what is bad adds to the apparent yield alone', () => {
    const { outcome } = play({
      plan: {
        passes: [pass('a', 10, { weight: 5, accept: 0.5 }), pass('b', 10, { weight: 2 }), pass('c', 10, { weight: 0 })],
      },
      tips: { sharp: kind(after(1, { cause: 'worn-out', quality: 0.6 })) },
      noticing: { review: { by: 'nobody' } },
    });
    // a is good with q = 1 (worn out at its very end), b bad with 0.6, c weighs nothing.
    expect(outcome.yield).toBeCloseTo(5 / 7, 4);
    expect(outcome.apparentYield).toBeCloseTo((5 + 2 * 0.6) / 7, 4);
    expect(outcome).toMatchObject({ good: 1, undetectedBad: 2, undetectedBadShare: 2 / 3, givenUp: 0, missing: 0 });
    expect(outcome.tipRecords[0].spoiled?.cause).toBe('worn-out');
  });

  it('tell the first cause that spoiled a tip, when, and at what use', () => {
    const { outcome } = play({
      plan: { passes: [pass('a', 10), pass('b', 10)] },
      tips: { sharp: kind(after(1.2, { cause: 'fouling', quality: 0.9 }), after(1.6, { cause: 'breakage' })) },
      noticing: { attempts: 1 },
    });
    const [{ spoiled, use, went }] = outcome.tipRecords;
    expect(spoiled?.cause).toBe('fouling');
    expect(spoiled?.use.images).toBeCloseTo(1.2, 4);
    expect(spoiled?.use.hours).toBeCloseTo(0.2, 4);
    expect(spoiled?.use.path).toBeCloseTo(0.144, 4);
    expect((spoiled?.time ?? 0) / 60e6).toBeCloseTo(32, 2);
    expect(use).toMatchObject({ images: 2, approaches: 1 });
    expect(went).toBe('end of the experiment');
  });

  it('add up cost from tips, chips, and hours of the instrument, overrun too, and of operators', () => {
    const prices = { costs: { instrumentHour: '60 EUR', operatorHour: '30 EUR' }, tips: { sharp: { price: '7 EUR' } } };
    const swap = play({
      ...prices,
      tips: { sharp: { ...kind(), price: '7 EUR' } },
      bookings: { hours: 'Mo 09:00-09:25,11:00-12:00' },
      rules: { after: '1 image' },
      plan: { passes: [pass('a', 5), pass('b', 5)] },
      workflows: { swap: { steps: { exchange: '30 min' } } },
    });
    // 09:25 scanned, but the retract is late: Monday 11:00 warm-up, exchange … 11:35, 11:38, approach, relocate, settle to 11:44, scan to 11:49.
    expect(swap.outcome).toMatchObject({ overrun: 0, instrumentTime: 60 * (25 + 49), probes: 2 });
    expect(swap.outcome.cost).toBeCloseTo(14 + 74 + (10 + 4 + 30 + 2 + 1 + 3) / 2, 9);
    const hop = (prepareAt: string) =>
      play(laidOver(HOPPING, { costs: prices.costs, workflows: { hop: { prepareAt, chip: { price: '500 EUR' } } } }))
        .outcome;
    // Preparing takes 30 of 60 minutes; at the bench they are the operator's alone.
    expect(hop('bench').cost).toBeCloseTo(500 + 30 + 44 / 2, 9);
    expect(hop('instrument').cost).toBeCloseTo(500 + 60 + 44 / 2, 9);
  });

  it('split the time by activity, and every microsecond is in one of them', () => {
    const { outcome } = play(
      {
        plan: { regions: 2, passes: [pass('a', 10), pass('b', 10)] },
        tips: { sharp: kind(after(1.5, { cause: 'fouling', quality: 0.1 })) },
        rules: { cleanFirst: { tries: 1, time: '2 min', success: 0.5 } },
        noticing: { review: { time: '1 min' }, check: { every: 3, time: '3 min', sensitivity: 1, falseAlarm: 0 } },
      },
      { cleaning: (_i, _k, _tip, count) => (count === 0 ? 0.1 : 0.9) },
    );
    const split = Object.fromEntries(
      ACTIVITIES.map((activity, i): [string, number] => [activity, outcome.split[0][i] / 60e6]).filter(
        ([, time]) => time !== 0,
      ),
    );
    // Fouled in the second image, cleaned, and again 1.5 images on, cleaned in vain: replaced. The next tip fouls in its second image.
    expect(split).toEqual({
      'scanning kept': 40,
      'scanning lost': 40,
      reviewing: 8,
      checking: 6,
      'cleaning and reconditioning': 6,
      exchanging: 1 + 3 + 2 + 1 + 1,
      'locating and relocating': 4 + 1 + 1 + 4 + 1 + 3,
      'preparing and setting up': 10,
      'warming up and settling': 5 + 2,
    });
    expect(outcome.split[0].reduce((sum, time) => sum + time, 0)).toBe(outcome.elapsed[0]);
  });
});

describe('equal moments', () => {
  it('end a scan before the booking closes and before the operator goes', () => {
    const { lines, outcome } = play({
      plan: { passes: [pass('a', 40)] },
      bookings: { hours: 'Mo-Fr 09:00-10:00' },
      operators: { hours: 'Mo-Fr 09:00-10:00' },
    });
    expect(lines).toContain('Mon 09:20 scan 1');
    expect(outcome.overrun).toBe(0);
  });

  it('close before anything starts: a step at the closing waits for the opening', () => {
    const { lines } = play({
      plan: { regions: 2, passes: [pass('a', 40)] },
      operators: { hours: 'Mo-Fr 09:00-10:00' },
      bookings: { start: 'Mo 09:00', unattended: 'none' },
      noticing: { review: { by: 'nobody' } },
    });
    expect(lines.filter((line) => !line.includes('*')).slice(4, 7)).toEqual([
      'Mon 09:20 scan 1',
      'Mon 10:00 waiting for the operator',
      'Tue 09:00 retract',
    ]);
  });

  it('notice nothing at the very moment at which the scan ends', () => {
    const { outcome } = play({
      tips: { sharp: kind(after(0.5, { cause: 'breakage' })) },
      noticing: { attempts: 1, watch: { by: 'automatic', sensitivity: 1, delay: '6 min' } },
    });
    expect(outcome.tipRecords[0].use.images).toBe(1);
  });
});
