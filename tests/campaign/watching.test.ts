import { describe, expect, it } from 'vitest';
import type { Raw } from '../support/run.js';
import { after, kind, laidOver, pass } from '../support/scene.js';
import { play } from '../support/stage.js';

const watched = (watch: Raw, over: Raw = {}): Raw =>
  laidOver(
    {
      plan: { passes: [pass('a', 10), pass('b', 10)] },
      noticing: { watch: { by: 'automatic', sensitivity: 1, delay: '2 min', ...watch } },
    },
    over,
  );
const tips = (...hazards: readonly Raw[]): Raw => ({ tips: { sharp: kind(...hazards) } });
const breakage = (use: number) => after(use, { cause: 'breakage' });
const fouling = (use: number, more: Raw = {}) => after(use, { cause: 'fouling', quality: 0.3, ...more });
/** Lengths of scans in minutes, as taken. */
const lengths = ({ minutes }: ReturnType<typeof play>) =>
  minutes.steps.filter(({ step }) => step === 'scan').map(({ start, end }) => Math.round((end - start) / 6e6) / 10);

describe('watching the running scan', () => {
  it('stops it after the delay; the take counts as flagged, and is not reviewed', () => {
    const played = play(watched({}, tips(breakage(1.5))));
    expect(lengths(played)).toEqual([10, 7, 10]);
    expect(played.names.slice(6, 9)).toEqual(['scan 2', 'retract', 'exchange']);
    expect(played.outcome).toMatchObject({ takes: 3, good: 2, tips: 2 });
    expect(played.outcome.tipRecords[0].use.images).toBeCloseTo(1.7, 9);
    expect(played.outcome.split[0].slice(0, 2).map((time) => Math.round(time / 6e7))).toEqual([20, 7]);
  });

  it('comes too late where the scan ends before the delay is over', () => {
    expect(lengths(play(watched({ delay: '6 min' }, tips(breakage(1.5)))))).toEqual([10, 10, 10]);
  });

  it('notices only its causes, and only as often as it is sensitive', () => {
    expect(lengths(play(watched({ causes: ['fouling'] }, tips(breakage(1.5)))))).toEqual([10, 10, 10]);
    const at = (u: number) => lengths(play(watched({ sensitivity: 0.4 }, tips(breakage(1.5))), { watch: () => u }));
    expect(at(0.39)).toEqual([10, 7, 10]);
    expect(at(0.4)).toEqual([10, 10, 10]);
  });

  it('looks for breakage, chipping and fouling where no causes are given', () => {
    const electrical = { plan: { passes: [pass('a', 10, { signal: 'electrical' })] } };
    const seen = (cause: string, more: Raw = {}) =>
      lengths(play(watched({}, laidOver(electrical, tips(after(0.5, { cause, ...more })))))).at(0) === 7;
    expect(seen('breakage')).toBe(true);
    expect(
      seen('chipping', {
        radiusFactor: { median: 2, geometricSd: 1 },
        life: { distribution: 'exponential', mean: 0.5 / Math.LN2 },
      }),
    ).toBe(true);
    expect(seen('fouling', { quality: 0.3 })).toBe(true);
    expect(seen('coating')).toBe(false);
    expect(seen('worn-out', { quality: 0.3 })).toBe(false);
  });

  it('by an operator sees only what shows in hours of presence, at the moment of noticing', () => {
    const until = (close: string, by = 'operator') =>
      lengths(
        play(
          watched(
            { by },
            {
              ...tips(breakage(1.5)),
              bookings: { start: 'Mo 09:00', unattended: 'scanning' },
              operators: { hours: `Mo-Fr 09:00-${close}` },
            },
          ),
        ),
      );
    // The tip breaks at 09:35 and would be seen at 09:37.
    expect(until('09:38').slice(0, 2)).toEqual([10, 7]);
    expect(until('09:37').slice(0, 2)).toEqual([10, 10]);
    // What watches by itself needs nobody.
    expect(until('09:37', 'automatic').slice(0, 2)).toEqual([10, 7]);
  });

  it('occupies no operator', () => {
    const { outcome } = play(watched({ by: 'operator' }));
    expect(outcome.operatorTime).toBe(60 * 14);
  });

  it('misses fouling that has cleared before the delay is over', () => {
    // Fouled from 00:35 on for 0.3 or 0.1 images: a mean m and a draw of one half clear after m·ln 2.
    const clearing = (images: number) => play(watched({}, tips(fouling(1.5, { clears: images / Math.LN2 }))));
    expect(lengths(clearing(0.3)).slice(0, 2)).toEqual([10, 7]);
    expect(lengths(clearing(0.1)).slice(0, 2)).toEqual([10, 10]);
  });

  it('may notice a later event where it missed an earlier one', () => {
    const played = play(watched({ sensitivity: 0.5, delay: '1 min' }, tips(fouling(0.2), breakage(0.6))), {
      watch: (_a, event, image, running) => (image === 0 && running === 0 && event === 0 ? 0.9 : 0.1),
    });
    // Of the two events of the first scan only the second is noticed.
    expect(lengths(played)[0]).toBe(7);
  });

  it('stops at the first of several events that it notices', () => {
    expect(lengths(play(watched({ delay: '1 min' }, tips(fouling(0.2), breakage(0.6)))))[0]).toBe(3);
    expect(lengths(play(watched({ delay: '5 min' }, tips(fouling(0.2), breakage(0.3)))))[0]).toBe(7);
  });

  it('sends a tip seen broken away uncleaned, one seen fouled to be cleaned', () => {
    const rules = { rules: { cleanFirst: { tries: 1, time: '2 min', success: 1 } } };
    expect(play(watched({}, { ...tips(breakage(1.5)), ...rules })).names).not.toContain('clean');
    const fouled = play(watched({}, { ...tips(fouling(1.5)), ...rules }));
    expect(fouled.names.slice(6)).toEqual(['scan 2', 'clean', 'scan 2', 'review']);
    expect(fouled.outcome.tips).toBe(1);
    // A breakage that only the review found is not known for one: cleaning is tried.
    expect(play(watched({ causes: ['fouling'] }, { ...tips(breakage(1.5)), ...rules })).names).toContain('clean');
  });

  it('counts a stopped scan towards the use of the tip, not towards its next check', () => {
    const { names, outcome } = play(
      watched(
        {},
        {
          ...tips(fouling(1.5)),
          rules: { cleanFirst: { tries: 1, time: '2 min', success: 1 } },
          noticing: { check: { every: 2, time: '3 min', sensitivity: 0, falseAlarm: 0 } },
        },
      ),
    );
    expect(names.slice(4)).toEqual(['scan 1', 'review', 'scan 2', 'clean', 'scan 2', 'review', 'check']);
    expect(outcome.tipRecords[0].use.images).toBeCloseTo(2.7, 3);
    const { outcome: replaced } = play(
      watched({}, { ...tips(fouling(0.5)), rules: { after: '0.65 images', cleanFirst: { tries: 1, success: 1 } } }),
    );
    expect(replaced.tipRecords[0]).toMatchObject({ went: 'use reached' });
  });
});
