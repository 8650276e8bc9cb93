import { describe, expect, it } from 'vitest';
import type { Raw } from '../support/run.js';
import { after, HOPPING, kind, laidOver, pass } from '../support/scene.js';
import { play } from '../support/stage.js';

const images = (count: number, more: Raw = {}) =>
  Array.from({ length: count }, (_, i) => pass(`image ${i + 1}`, 10, more));
const events = (names: readonly string[]) =>
  names.filter((name) => /^(scan|check|exchange|clean|recondition|waiting)/u.test(name)).join(' ');
const fouled = (use: number) => ({ sharp: kind(after(use, { cause: 'fouling', quality: 0.1 })) });
const ends = ({ outcome }: ReturnType<typeof play>) =>
  outcome.tipRecords.map((tip) => `${tip.kind} ${tip.number} ${tip.went}`);

describe('cleaning and reconditioning after a flag', () => {
  const rules = {
    cleanFirst: { tries: 2, time: '2 min', success: 0.5 },
    recondition: { tries: 2, time: '4 min', newApex: 0.3, breaks: 0.1 },
  };

  it('come in this order, each followed by the retake, before the tip is replaced', () => {
    const { names, outcome } = play(
      { plan: { passes: images(1) }, tips: fouled(0.5), rules, noticing: { attempts: 9 } },
      { cleaning: () => 0.9, reconditioning: () => 0.9 },
    );
    const tries = 'scan 1 clean scan 1 clean scan 1 recondition scan 1 recondition scan 1 exchange';
    // The next tip fouls in its first image as well, and so on until the attempts are used up.
    expect(events(names)).toBe(`${tries} scan 1 clean scan 1 clean scan 1 recondition scan 1`);
    expect(outcome).toMatchObject({ takes: 9, tips: 2, givenUp: 1 });
    expect(outcome.split[0][4]).toBe(60e6 * (4 * 2 + 3 * 4));
  });

  it('clear fouling where cleaning succeeds, and tries count anew after an unflagged take', () => {
    const { names, outcome } = play(
      {
        plan: { passes: images(3) },
        tips: fouled(1.5),
        rules: { cleanFirst: { tries: 1, time: '2 min', success: 0.5 } },
      },
      { cleaning: () => 0.1 },
    );
    // Fouled at 1.5; cleaned, and exposure restarts: fouled again 1.5 images on.
    expect(events(names)).toBe('scan 1 scan 2 clean scan 2 scan 3 clean scan 3');
    expect(outcome.tips).toBe(1);
  });

  it('touch nothing but fouling: a broken tip stays broken', () => {
    const { names } = play({
      plan: { passes: images(1) },
      tips: { sharp: kind(after(0.5, { cause: 'breakage' })) },
      rules: { cleanFirst: { tries: 1, time: '2 min', success: 1 } },
      noticing: { attempts: 3 },
    });
    expect(events(names)).toBe('scan 1 clean scan 1 exchange scan 1');
  });

  it('by one uniform break the tip, make a new apex, or do nothing', () => {
    const at = (u: number) =>
      play(
        {
          plan: { passes: images(2) },
          tips: fouled(1.5),
          rules: { recondition: { tries: 1, time: '4 min', newApex: 0.3, breaks: 0.1 } },
        },
        { reconditioning: () => u },
      );
    expect(events(at(0.05).names)).toBe('scan 1 scan 2 recondition scan 2 exchange scan 2');
    expect(at(0.05).outcome.tipRecords[0].spoiled?.cause).toBe('fouling');
    expect(events(at(0.39).names)).toBe('scan 1 scan 2 recondition scan 2');
    expect(events(at(0.41).names)).toBe('scan 1 scan 2 recondition scan 2 exchange scan 2');
  });

  it('are not tried for a critical pass, nor when its use is reached, nor for another kind', () => {
    const broken = { sharp: kind(after(0.5, { cause: 'breakage' })) };
    const clean = { cleanFirst: { tries: 1, time: '2 min', success: 1 } };
    const critical = play({
      plan: { passes: images(1, { critical: true }) },
      tips: broken,
      rules: clean,
      noticing: { attempts: 2 },
    });
    expect(events(critical.names)).toBe('scan 1 exchange scan 1');
    const used = play({
      plan: { passes: images(1) },
      tips: broken,
      rules: { ...clean, after: '1 image' },
      noticing: { attempts: 2 },
    });
    expect(events(used.names)).toBe('scan 1 exchange scan 1');
    const other = play({
      plan: { passes: [pass('a', 10), pass('b', 10, { tip: 'soft' })] },
      tips: { ...broken, soft: kind() },
      rules: clean,
      noticing: { attempts: 1 },
    });
    expect(events(other.names)).toBe('scan 1 exchange scan 2');
    expect(ends(other)).toEqual(['sharp 0 flagged by an image', 'soft 0 end of the experiment']);
  });
});

describe('a tip that is to go', () => {
  it.each([
    ['2 images', 2],
    // 1 µm · 60 lines, there and back, is 0.12 mm an image; 10 min are a sixth of an hour.
    ['0.24 mm', 2],
    ['0.5 h', 3],
  ])('after a use of %s goes when the next take is due', (limit, each) => {
    const played = play({ plan: { passes: images(6) }, rules: { after: limit } });
    expect(played.outcome.tipRecords.map(({ use }) => use.images)).toEqual(
      Array.from({ length: 6 / each }, () => each),
    );
    expect(ends(played).at(-1)).toMatch('end of the experiment');
  });

  it('takes every critical take on a tip that has scanned nothing', () => {
    const played = play({
      plan: { regions: 2, passes: [pass('a', 10), pass('b', 10, { critical: true }), pass('c', 10)] },
    });
    expect(events(played.names)).toBe('scan 1 exchange scan 2 scan 3 scan 4 exchange scan 5 scan 6');
    const retaken = play(
      { plan: { passes: images(1, { critical: true }) }, noticing: { review: { falseAlarm: 0.5 } } },
      { review: (_a, _b, _image, running) => (running === 0 ? 0.1 : 0.9) },
    );
    expect(events(retaken.names)).toBe('scan 1 exchange scan 1');
    expect(ends(retaken)[0]).toBe('sharp 0 flagged by an image');
  });

  it('is not parked but goes, if its use is reached or it is flagged, though another kind is needed', () => {
    const plan = {
      plan: { regions: 2, passes: [pass('a', 10), pass('b', 10, { tip: 'soft' })] },
      tips: { soft: kind() },
    };
    expect(ends(play({ ...plan, rules: { after: '1 image' } }))).toEqual([
      'sharp 0 use reached',
      'soft 0 use reached',
      'sharp 1 use reached',
      'soft 1 end of the experiment',
    ]);
  });

  it('is parked once it has scanned where a critical image refuses it, and not used again for such a one', () => {
    const played = play({
      plan: { regions: 2, passes: [pass('a', 10, { critical: true }), pass('b', 10, { tip: 'soft' })] },
      tips: { soft: kind() },
    });
    expect(ends(played)).toEqual([
      'soft 0 end of the experiment',
      'sharp 0 end of the experiment',
      'sharp 1 end of the experiment',
    ]);
    expect(played.outcome.tips).toBe(3);
  });
});

describe('stock', () => {
  const each = { plan: { passes: images(4) }, rules: { after: '1 image' } };

  it('that has run out for good ends the experiment there', () => {
    const { names, outcome } = play({ ...each, stock: { tips: { sharp: 2 } } });
    expect(names.at(-1)).toBe('retract');
    expect(outcome).toMatchObject({ isFinished: false, good: 2, missing: 2, tips: 2, takes: 2 });
  });

  it('is waited for from when it ran out, and brings as many again', () => {
    const { lines, outcome } = play({ ...each, stock: { tips: { sharp: { atHand: 2, restock: '3 h' } } } });
    // The second tip is taken at 00:31, before its exchange: the delivery comes at 03:31.
    expect(lines.filter((line) => /scan|stock|delivery/u.test(line))).toEqual([
      'Mon 00:20 scan 1',
      'Mon 00:43 scan 2',
      'Mon 00:54 waiting for stock',
      'Mon 03:31 * delivery',
      'Mon 03:43 scan 3',
      'Mon 04:06 scan 4',
    ]);
    expect(outcome).toMatchObject({ isFinished: true, tips: 4 });
    expect(outcome.split[0].at(-2)).toBe(60e6 * 157);
  });

  it('of chips counts chips, not tips of a kind', () => {
    const { outcome } = play(
      laidOver(laidOver(HOPPING, each), { stock: { chips: 2 }, workflows: { hop: { chip: { sites: { sharp: 1 } } } } }),
    );
    expect(outcome).toMatchObject({ isFinished: false, chips: 2, tips: 2, good: 2 });
  });

  it('is counted for what waits in closed hours as waiting for a booking first', () => {
    const { outcome } = play({
      ...each,
      plan: { passes: images(2) },
      bookings: { hours: 'Mo-Fr 09:00-10:00', start: 'Mo 09:00' },
      stock: { tips: { sharp: { atHand: 1, restock: '24 h' } } },
    });
    // Ran out at 09:00; retracted at 09:31; delivery on Tuesday at 09:00.
    const { split, elapsed } = outcome;
    expect(split[0].slice(-3)).toEqual([60e6 * 23 * 60, 60e6 * 29, 0]);
    expect(split[0].reduce((sum, time) => sum + time, 0)).toBe(elapsed[0]);
  });
});
