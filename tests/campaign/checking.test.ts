import { describe, expect, it } from 'vitest';
import type { Raw } from '../support/run.js';
import { after, kind, laidOver, pass } from '../support/scene.js';
import { play } from '../support/stage.js';

const images = (count: number) => Array.from({ length: count }, (_, i) => pass(`image ${i + 1}`, 10));
const checked = (check: Raw, over: Raw = {}): Raw =>
  laidOver({ noticing: { check: { every: 2, time: '3 min', sensitivity: 1, falseAlarm: 0, ...check } } }, over);
const events = (names: readonly string[]) =>
  names.filter((name) => /^(scan|check|exchange|clean|recondition)/u.test(name)).join(' ');
/** The check with this running number of this tip, both from 0, fails by false alarm. */
const failing = (tip: number, count: number) => ({
  checkJudgement: (_instrument: number, _kind: number, t: number, c: number) => (t === tip && c === count ? 0.1 : 0.9),
});
const UNREVIEWED = { review: { by: 'nobody' } };

describe('a check', () => {
  it('is due after so many scans of the tip, after their review, and after the last image too', () => {
    const { names, outcome } = play(checked({}, { plan: { passes: images(4) } }));
    expect(names.slice(4)).toEqual([
      'scan 1',
      'review',
      'scan 2',
      'review',
      'check',
      'scan 3',
      'review',
      'scan 4',
      'review',
      'check',
    ]);
    expect(outcome.totalTime).toBe(60 * (20 + 40 + 6));
  });

  it('counts the scans of each tip since it was new', () => {
    const { names } = play(checked({}, { plan: { passes: images(4) }, rules: { after: '3 images' } }));
    expect(events(names)).toBe('scan 1 scan 2 check scan 3 exchange scan 4');
  });

  it('is not done after a flagged take, but after the next that is not', () => {
    const { names } = play(
      checked(
        { every: 1 },
        { plan: { passes: images(2) }, noticing: { review: { falseAlarm: 0.5 } }, rules: { cleanFirst: { tries: 1 } } },
      ),
      {
        review: (_a: number, _b: number, image: number, running: number) => (image === 0 && running === 0 ? 0.1 : 0.9),
        cleaning: () => 0.1,
      },
    );
    expect(events(names)).toBe('scan 1 clean scan 1 check scan 2 check');
  });

  it('of each new tip just put on, the first too, if asked for; parked ones are not new', () => {
    const { names } = play(
      checked(
        { every: 9, onNew: true },
        { plan: { regions: 2, passes: [pass('a', 10), pass('b', 10, { tip: 'soft' })] }, tips: { soft: kind() } },
      ),
    );
    expect(events(names)).toBe('check scan 1 exchange check scan 2 exchange scan 3 exchange scan 4');
    expect(names.slice(3, 6)).toEqual(['approach', 'check', 'scan 1']);
  });

  it('that fails sends the tip away, and what it took since its last passed check is taken again in plan order', () => {
    const { names, outcome } = play(checked({ falseAlarm: 0.5 }, { plan: { passes: images(5) } }), failing(0, 1));
    // Scans 3 and 4 are suspect; 1 and 2 were passed by the first check.
    expect(events(names)).toBe('scan 1 scan 2 check scan 3 scan 4 check exchange scan 3 scan 4 check scan 5');
    expect(outcome.tipRecords.map(({ went }) => went)).toEqual(['failed a check', 'end of the experiment']);
    expect(outcome).toMatchObject({ takes: 7, good: 5 });
  });

  it('repeats no suspects if told not to', () => {
    const { names } = play(
      checked({ falseAlarm: 0.5, repeatSuspects: false }, { plan: { passes: images(5) } }),
      failing(0, 0),
    );
    expect(events(names)).toBe('scan 1 scan 2 check exchange scan 3 scan 4 check scan 5');
  });

  it('after the last image sends the tip away only if suspects make another take due', () => {
    const plan = { plan: { passes: images(2) } };
    const repeated = play(checked({ falseAlarm: 0.5 }, plan), failing(0, 0));
    expect(events(repeated.names)).toBe('scan 1 scan 2 check exchange scan 1 scan 2 check');
    const left = play(checked({ falseAlarm: 0.5, repeatSuspects: false }, plan), failing(0, 0));
    expect(events(left.names)).toBe('scan 1 scan 2 check');
    expect(left.outcome.tipRecords.map(({ went }) => went)).toEqual(['end of the experiment']);
  });

  it('leaves a campaign finished where what suspects would be taken again with has run out: every image is kept', () => {
    const left = (over: Raw) =>
      play(
        checked({ falseAlarm: 0.5 }, laidOver({ plan: { passes: images(2) }, stock: { tips: { sharp: 1 } } }, over)),
        failing(0, 0),
      );
    expect(events(left({}).names)).toBe('scan 1 scan 2 check');
    expect(left({}).outcome).toMatchObject({ good: 2, missing: 0, isFinished: true });
    expect(left({ plan: { passes: images(3) } }).outcome).toMatchObject({ good: 2, missing: 1, isFinished: false });
  });

  it('leaves a suspect without attempts left its take', () => {
    const { outcome } = play(
      checked({ falseAlarm: 0.5 }, { plan: { passes: images(3) }, noticing: { attempts: 1 } }),
      failing(0, 0),
    );
    expect(outcome).toMatchObject({ takes: 3, good: 3, givenUp: 0 });
  });

  it('keeps the take before where a retaken suspect is flagged', () => {
    const { outcome } = play(
      checked(
        { falseAlarm: 0.5 },
        { plan: { passes: images(2) }, noticing: { attempts: 2, review: { falseAlarm: 0.5 } } },
      ),
      {
        ...failing(0, 0),
        review: (_a: number, _b: number, image: number, running: number) => (image === 0 && running === 1 ? 0.1 : 0.9),
      },
    );
    expect(outcome.images.map(({ kept }) => kept?.running)).toEqual([0, 1]);
    expect(outcome.good).toBe(2);
  });

  it('suspects images of regions left behind too, which are repeated when the plan is through', () => {
    const { names } = play(checked({ falseAlarm: 0.5 }, { plan: { regions: 3 } }), failing(0, 0));
    expect(events(names)).toBe('scan 1 scan 2 check exchange scan 2 scan 3 check scan 1');
  });

  it('finds a tip that nobody else has noticed, by how the next image would start', () => {
    const broken = { sharp: kind(after(1.5, { cause: 'breakage' })) };
    const found = play(checked({}, { plan: { passes: images(3) }, tips: broken, noticing: UNREVIEWED }));
    expect(events(found.names)).toBe(
      'scan 1 scan 2 check exchange scan 1 scan 2 check exchange scan 1 scan 2 check exchange scan 1 scan 2 check exchange scan 3',
    );
    // Four attempts each; suspects are never given up.
    expect(found.outcome).toMatchObject({ takes: 9, tips: 5, good: 2, undetectedBad: 1, givenUp: 0 });
    const missed = play(
      checked({ sensitivity: 0 }, { plan: { passes: images(3) }, tips: broken, noticing: UNREVIEWED }),
    );
    expect(missed.outcome).toMatchObject({ tips: 1, undetectedBad: 2, good: 1 });
  });

  it('judges by the next image where this kind takes it, else by the last one', () => {
    // The coating has gone: felt by an electrical image alone. After the topography the next image is electrical, of the same kind.
    const coated = (last: string) => ({
      plan: {
        passes: [pass('topography', 10, { tip: 'coated' }), pass('current', 10, { tip: last, signal: 'electrical' })],
      },
      tips: { coated: kind(after(0.5, { cause: 'coating' })), sharp: kind() },
      noticing: UNREVIEWED,
    });
    const same = play(checked({ every: 1, repeatSuspects: false }, coated('coated')));
    expect(events(same.names)).toBe('scan 1 check exchange scan 2 check');
    // With another kind next, the last image counts, which the coating did not spoil.
    const other = play(
      checked(
        { every: 1, repeatSuspects: false },
        { ...coated('sharp'), plan: { passes: [pass('topography', 10, { tip: 'coated' }), pass('current', 10)] } },
      ),
    );
    expect(events(other.names)).toBe('scan 1 check exchange scan 2 check');
    expect(other.outcome.tipRecords.map((tip) => `${tip.kind} ${tip.went}`)).toEqual([
      'sharp end of the experiment',
      'coated end of the experiment',
    ]);
  });

  it('reads the radius with a relative normal error; a tip read above the limit goes, even without a flag', () => {
    const rules = { radiusAbove: '11 nm' };
    const at = (reading: number) =>
      play(checked({ radiusError: 0.1 }, { plan: { passes: images(3) }, rules }), { checkReading: () => reading });
    // R = 10 nm, read as 10·(1 + 0.1·z): above 11 where z > 1, that is u > 0.8413.
    expect(at(0.84).outcome.tips).toBe(1);
    const above = at(0.843);
    expect(above.outcome.tipRecords.map(({ went }) => went)).toEqual(['radius above limit', 'end of the experiment']);
    expect(events(above.names)).toBe('scan 1 scan 2 check exchange scan 3');
  });

  it('finds a tip too blunt for the next image', () => {
    // d(R) = 2·√(2·R): q = 9 / d falls below 0.9 above R = 12.5 nm. c(20°) = 1.3257, and each scan slides 0.512 mm at 1 nN:
    // R³ grows by 3400·0.512 / 1.3257 = 1313 from 1000, so R is 11.8 in the middle of the first scan and 13.2 at its end.
    const wear = { coefficient: '3400 nm3/(nN mm)', geometricSd: 1 };
    const blunting = {
      sharp: { radius: { nominal: '10 nm', geometricSd: 1 }, blunting: { halfAngle: '20 deg', wear } },
    };
    const { outcome } = play(
      checked(
        { every: 1 },
        {
          plan: {
            passes: [0, 1, 2].map((i) =>
              pass(`image ${i}`, 10, {
                lines: 256,
                size: '1 um',
                lineRate: '0.5 Hz',
                neededResolution: '9 nm',
                dip: '1 nm',
                accept: 0.9,
              }),
            ),
          },
          tips: blunting,
          noticing: UNREVIEWED,
        },
      ),
    );
    expect(outcome.tipRecords.at(0)).toMatchObject({ went: 'failed a check', use: { images: 1 }, spoiled: null });
  });
});

describe('remedies after a failed check', () => {
  it('are each followed by another check, cleaning before reconditioning, before the tip is replaced', () => {
    const rules = {
      cleanFirst: { tries: 2, time: '2 min', success: 0.5 },
      recondition: { tries: 1, time: '2 min', newApex: 0.3, breaks: 0.1 },
    };
    const { names, outcome } = play(
      checked(
        { repeatSuspects: false },
        {
          plan: { passes: images(3) },
          rules,
          tips: { sharp: kind(after(1.5, { cause: 'fouling', quality: 0.1 })) },
          noticing: UNREVIEWED,
        },
      ),
      { cleaning: () => 0.9, reconditioning: () => 0.9 },
    );
    expect(events(names)).toBe('scan 1 scan 2 check clean check clean check recondition check exchange scan 3');
    expect(outcome.tips).toBe(2);
    const cleaned = play(
      checked(
        { repeatSuspects: false },
        {
          plan: { passes: images(3) },
          rules,
          tips: { sharp: kind(after(1.5, { cause: 'fouling', quality: 0.1 })) },
          noticing: UNREVIEWED,
        },
      ),
      { cleaning: (_i: number, _k: number, _t: number, count: number) => (count === 1 ? 0.1 : 0.9) },
    );
    expect(events(cleaned.names)).toBe('scan 1 scan 2 check clean check clean check scan 3');
  });
});
