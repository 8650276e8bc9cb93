import { describe, expect, it } from 'vitest';
import type { Raw } from '../support/run.js';
import { HOPPING, kind, laidOver, pass } from '../support/scene.js';
import { afterScan, play } from '../support/stage.js';

/** Approaches (from 0) that lose the specimen. */
const losing = (...occurrences: readonly number[]) => ({
  specimenLoss: (_instrument: number, _step: number, occurrence: number) =>
    occurrences.includes(occurrence) ? 0.001 : 0.9,
});
const from = (first: number, count: number) => Array.from({ length: count }, (_, i) => first + i);
const hop = (over: Raw, script = {}) =>
  play(laidOver(laidOver(HOPPING, { workflows: { hop: { specimenLoss: 0.01 } } }), over), script);
const AT_BENCH = { workflows: { hop: { prepareAt: 'bench' } } };
const TWO_KINDS = {
  plan: { regions: 2, passes: [pass('a', 10), pass('b', 10, { tip: 'soft' })] },
  tips: { soft: kind() },
  workflows: { hop: { chip: { sites: { sharp: 4, soft: 4 } } } },
};

describe('a specimen lost at an approach', () => {
  it('is replaced by the next, its region located anew, and the tip stays', () => {
    const { lines, outcome } = hop({}, losing(0));
    expect(lines).toEqual([
      'Mon 00:00 prepare',
      'Mon 00:30 setUp',
      'Mon 00:40 * mounted',
      'Mon 00:40 warmUp',
      'Mon 00:45 locate',
      'Mon 00:49 approach',
      'Mon 00:50 * specimen lost',
      'Mon 00:50 prepare',
      'Mon 01:20 locate',
      'Mon 01:24 approach',
      'Mon 01:25 scan 1',
      'Mon 01:35 review',
      'Mon 01:35 * went',
    ]);
    expect(outcome).toMatchObject({ specimens: 2, tips: 1 });
    expect(outcome.tipRecords[0].use.approaches).toBe(2);
  });

  it('ends the campaign where one after the other is lost at a region, and says so', () => {
    const specimens = { atHand: 5, restock: '1 min' };
    const { outcome, lines } = hop({ stock: { specimens } }, { specimenLoss: () => 0 });
    expect(outcome).toMatchObject({ isFinished: false, specimens: 101 });
    expect(lines.filter((line) => line.endsWith('specimen lost'))).toHaveLength(101);
    // As many again and again, with a region done in between, are no reason.
    const often = hop(
      { plan: { regions: 3 }, stock: { specimens } },
      losing(...from(0, 60), ...from(61, 60), ...from(122, 60)),
    );
    expect(often.outcome.isFinished).toBe(true);
    expect(often.outcome.specimens).toBeGreaterThan(150);
  });

  it('takes with it what was kept of its region, which starts afresh with all its attempts', () => {
    const { names, outcome } = hop(
      {
        plan: { passes: [pass('a', 10), pass('b', 10), pass('c', 10)] },
        rules: { after: '2 images' },
        noticing: { attempts: 1 },
      },
      losing(1),
    );
    expect(names.filter((name) => name.startsWith('scan'))).toEqual(['scan 1', 'scan 2', 'scan 1', 'scan 2', 'scan 3']);
    expect(afterScan(names, 2).slice(0, 11)).toEqual([
      'review',
      'retract',
      'offset',
      'approach',
      'prepare',
      'locate',
      'approach',
      'resonance',
      'settle',
      'scan 1',
      'review',
    ]);
    expect(outcome).toMatchObject({ good: 3, takes: 5, givenUp: 0, tips: 3 });
    expect(outcome.takesOf).toEqual([2, 2, 1]);
    // Void takes are scanning lost: two of five.
    expect(outcome.split[0].slice(0, 2)).toEqual([60e6 * 30, 60e6 * 20]);
  });

  it('leaves other regions what they have, though they must be located anew', () => {
    const { names, outcome } = hop({ plan: { regions: 3 }, noticing: { attempts: 1 } }, losing(1));
    expect(afterScan(names, 1)).toEqual([
      'review',
      'retract',
      'locate',
      'approach',
      'prepare',
      'locate',
      'approach',
      'scan 2',
      'review',
      'retract',
      'locate',
      'approach',
      'scan 3',
      'review',
    ]);
    expect(outcome.takesOf).toEqual([1, 1, 1]);
  });

  it('sends, in tip-first, the images of earlier kinds of that region to the repeat list', () => {
    // Approach 2 is for the first image of the second kind, at region 1, whose image of the first kind is void then.
    const { names, outcome } = hop(laidOver(TWO_KINDS, { plan: { order: 'tip-first' } }), losing(2));
    expect(names.filter((name) => name.startsWith('scan'))).toEqual(['scan 1', 'scan 2', 'scan 3', 'scan 4', 'scan 1']);
    expect(outcome).toMatchObject({ good: 4, tips: 2, specimens: 2 });
  });

  it('repeats, in region-first, the images of that region at once', () => {
    const { names } = hop(TWO_KINDS, losing(1));
    expect(names.filter((name) => name.startsWith('scan'))).toEqual(['scan 1', 'scan 1', 'scan 2', 'scan 3', 'scan 4']);
  });

  it('makes flags void too: a given-up image is due again', () => {
    const { outcome } = hop(
      {
        plan: { passes: [pass('a', 10), pass('b', 10)] },
        rules: { after: '1 image' },
        noticing: { attempts: 1, review: { falseAlarm: 0.5 } },
      },
      {
        ...losing(1),
        review: (_a: number, _b: number, image: number, running: number) => (image === 0 && running === 0 ? 0.1 : 0.9),
      },
    );
    expect(outcome).toMatchObject({ good: 2, givenUp: 0, takes: 3 });
  });

  it('keeps what was kept of its region too where none is left', () => {
    const { outcome } = hop(
      { plan: { passes: [pass('a', 10), pass('b', 10)] }, rules: { after: '1 image' }, stock: { specimens: 1 } },
      losing(1),
    );
    expect(outcome).toMatchObject({ isFinished: false, good: 1, missing: 1, takes: 1 });
  });

  it('ends the experiment where none is left', () => {
    const { names, outcome } = hop({ plan: { regions: 3 }, stock: { specimens: 2 } }, losing(1, 2));
    expect(afterScan(names, 1)).toEqual(['review', 'retract', 'locate', 'approach', 'prepare', 'locate', 'approach']);
    expect(outcome).toMatchObject({ isFinished: false, specimens: 2, good: 1, missing: 2 });
    // The end is that of the last step.
    expect(outcome.totalTime).toBe(60 * (30 + 20 + 10 + 1 + 4 + 1 + 30 + 4 + 1));
  });

  it('is waited for where more come', () => {
    const { lines, outcome } = hop({ stock: { specimens: { atHand: 1, restock: '2 h' } } }, losing(0));
    expect(lines.slice(5, 10)).toEqual([
      'Mon 00:49 approach',
      'Mon 00:50 * specimen lost',
      'Mon 00:50 waiting for stock',
      'Mon 02:00 * delivery',
      'Mon 02:00 prepare',
    ]);
    expect(outcome).toMatchObject({ specimens: 2, isFinished: true });
  });

  it('is lost at the approach to a dead site too', () => {
    const { names, outcome } = hop(
      {
        plan: { passes: [pass('a', 10), pass('b', 10)] },
        rules: { after: '1 image' },
        workflows: { hop: { chip: { dead: { sharp: 0.3 } } } },
      },
      { ...losing(1), dead: (_i: number, _k: number, _c: number, site: number) => (site === 1 ? 0.1 : 0.9) },
    );
    expect(afterScan(names, 1)).toEqual([
      'review',
      'retract',
      'offset',
      'approach',
      'prepare',
      'locate',
      'approach',
      'retract',
      'offset',
      'approach',
      'resonance',
      'settle',
      'scan 1',
      'review',
      'retract',
      'offset',
      'approach',
      'resonance',
      'settle',
      'register',
      'scan 2',
      'review',
    ]);
    expect(outcome.good).toBe(2);
  });
});

describe('preparing the specimen', () => {
  const hours = {
    bookings: { hours: 'Mo-Fr 10:00-17:00', start: 'Mo 08:00' },
    operators: { hours: 'Mo-Fr 09:00-17:00' },
  };

  it('at the bench comes before the start, on the time of the operator alone', () => {
    const { lines, outcome } = hop(laidOver(hours, AT_BENCH));
    expect(lines.slice(0, 3)).toEqual(['Mon 08:00 * prepared', 'Mon 08:00 waiting for a booking', 'Mon 10:00 setUp']);
    expect(outcome).toMatchObject({ instrumentTime: 60 * 30, totalTime: 60 * 150, benchTime: 60 * 30 });
    expect(outcome.split[0].reduce((sum, part) => sum + part)).toBe(150 * 60e6);
  });

  it('at the bench costs the operator as much as at the instrument, and the instrument nothing', () => {
    const [bench, instrument] = [laidOver(hours, AT_BENCH), hours].map((over) => hop(over).outcome);
    expect(instrument).toMatchObject({ instrumentTime: 60 * 60, benchTime: 0 });
    expect(bench.operatorTime).toBe(instrument.operatorTime);
  });

  it('at the bench is an operator’s work, whatever the scenario says of hands', () => {
    const byItself = { workflows: { hop: { steps: { prepare: { manual: false } } } } };
    expect(hop(laidOver(AT_BENCH, byItself)).outcome.operatorTime).toBe(60 * (30 + 14));
    const lost = hop(laidOver(AT_BENCH, byItself), losing(0));
    expect(lost.outcome.operatorTime).toBe(60 * (30 + 14 + 30 + 4));
    expect(hop(byItself).outcome.operatorTime).toBe(60 * 14);
  });

  it('of a spare at the bench lets the instrument wait, for the operator but for no booking', () => {
    const { lines, outcome } = hop(laidOver(hours, AT_BENCH), losing(0));
    expect(lines.filter((line) => line.startsWith('Mon 10:2') || line.endsWith('prepare'))).toEqual([
      'Mon 10:20 * specimen lost',
      'Mon 10:20 prepare',
    ]);
    expect(outcome).toMatchObject({ benchTime: 60 * 30, specimens: 2 });
  });

  it('of a spare at the bench waits for an operator, not for a booking, and never runs beside warm-up', () => {
    const spare = (operators: string) =>
      hop(
        laidOver(AT_BENCH, {
          bookings: { hours: 'Mo-Fr 09:00-10:00', start: 'Mo 09:00' },
          operators: { hours: `Mo 09:00-09:20; ${operators}` },
        }),
        losing(0),
      );
    const after = ({ lines }: ReturnType<typeof play>) =>
      lines.slice(lines.indexOf('Mon 09:20 * specimen lost') + 1).filter((line) => !line.includes('*'));
    // Prepared outside bookings: neither instrument time nor overrun.
    const noon = spare('Mo 12:00-17:00; Tu 09:00-17:00');
    expect(after(noon).slice(0, 5)).toEqual([
      'Mon 09:20 waiting for the operator',
      'Mon 12:00 prepare',
      'Mon 12:30 waiting for a booking',
      'Tue 09:00 warmUp',
      'Tue 09:05 locate',
    ]);
    expect(noon.outcome).toMatchObject({ overrun: 0, instrumentTime: 60 * (60 + 20), operatorTime: 60 * (74 + 4) });
    // Begun before the opening, it puts the warm-up off; inside the booking it is instrument time.
    const early = spare('Tu 08:50-17:00');
    expect(after(early).slice(1, 4)).toEqual(['Tue 08:50 prepare', 'Tue 09:20 warmUp', 'Tue 09:25 locate']);
    expect(early.outcome.instrumentTime).toBe(60 * (60 + 40));
    // Where operator and booking begin at once, the warm-up comes first.
    expect(after(spare('Tu 09:00-17:00')).slice(1, 4)).toEqual([
      'Tue 09:00 warmUp',
      'Tue 09:05 prepare',
      'Tue 09:35 locate',
    ]);
  });
});
