import { describe, expect, it } from 'vitest';
import type { Raw } from '../support/run.js';
import { after, kind, pass } from '../support/scene.js';
import { play } from '../support/stage.js';

const reviewBy = (by: string, more: Raw = {}) => ({
  noticing: { review: { by, time: '1 min', falseAlarm: 0.5 }, ...more },
});

/** Takes that a review flags, as `image.take`, both from 1. */
const flagging = (...takes: readonly string[]) => ({
  review: (_a: number, _b: number, image: number, running: number) =>
    takes.includes(`${image + 1}.${running + 1}`) ? 0.1 : 0.9,
});
const scans = (names: readonly string[]) => names.filter((name) => name.startsWith('scan')).join(' ');
const PLAN = { plan: { regions: 2, passes: [pass('a', 10), pass('b', 10)] } };

describe('an image that a review flags', () => {
  it('is taken again next, after the change of tip', () => {
    const { names, outcome } = play({ ...PLAN, ...reviewBy('automatic') }, flagging('1.1'));
    expect(scans(names)).toBe('scan 1 scan 1 scan 2 scan 3 scan 4');
    expect(outcome).toMatchObject({ takes: 5, tips: 2, good: 4 });
    expect(outcome.split[0].slice(0, 3)).toEqual([60e6 * 40, 60e6 * 10, 60e6 * 5]);
  });

  it('is given up after its attempts, and counts nothing; the tip goes only when a next take is due', () => {
    const { names, outcome } = play(
      { plan: { passes: [pass('a', 10, { weight: 3 }), pass('b', 10)] }, ...reviewBy('automatic', { attempts: 2 }) },
      flagging('1.1', '1.2', '2.1', '2.2'),
    );
    expect(scans(names)).toBe('scan 1 scan 1 scan 2 scan 2');
    expect(outcome).toMatchObject({ givenUp: 2, good: 0, yield: 0, apparentYield: 0, tips: 4, isFinished: true });
    expect(names.at(-1)).toBe('review');
  });

  it('holds the instrument while an operator who is there reviews, as an automatic review does', () => {
    const lines = (by: string) => play({ ...PLAN, ...reviewBy(by) }, flagging('1.1')).lines;
    expect(lines('operator')).toEqual(lines('automatic'));
    const [operator, automatic] = ['operator', 'automatic'].map((by) => play({ ...PLAN, ...reviewBy(by) }).outcome);
    expect(operator.operatorTime - automatic.operatorTime).toBe(60 * 4);
  });

  it('is a bad one as often as the review is sensitive, a good one as often as it gives a false alarm', () => {
    const flags = (tips: Raw, u: number) =>
      play({ tips, noticing: { attempts: 1, review: { sensitivity: 0.7, falseAlarm: 0.2 } } }, { review: () => u })
        .outcome.givenUp;
    const bad = { sharp: kind(after(0.1, { cause: 'breakage' })) };
    expect([0.69, 0.7].map((u) => flags(bad, u))).toEqual([1, 0]);
    expect([0.19, 0.2].map((u) => flags({}, u))).toEqual([1, 0]);
  });

  it('is never flagged where nobody reviews, nor is time spent', () => {
    const { names, outcome } = play({ ...PLAN, ...reviewBy('nobody') }, flagging('1.1', '2.1'));
    expect(scans(names)).toBe('scan 1 scan 2 scan 3 scan 4');
    expect(names).not.toContain('review');
    expect(outcome).toMatchObject({ takes: 4, good: 4 });
  });

  it('if it is bad and nobody notices, is kept as a undetected bad one with its true quality', () => {
    const fouled = after(0.5, { cause: 'fouling', quality: 0.4 });
    const { outcome } = play({
      plan: { passes: [pass('a', 10, { weight: 3 }), pass('b', 10)] },
      tips: { sharp: kind(fouled) },
      noticing: { review: { sensitivity: 0 } },
    });
    // Half of the first scan is clean: q = (1 + 0.4) / 2; the second is fouled throughout.
    expect(outcome.images.map(({ fate, kept }) => [fate, Math.round(1e4 * (kept?.quality ?? 0)) / 1e4])).toEqual([
      ['undetected bad', 0.7],
      ['undetected bad', 0.4],
    ]);
    expect(outcome).toMatchObject({ undetectedBad: 2, undetectedBadShare: 1, yield: 0 });
    expect(outcome.apparentYield).toBeCloseTo((3 * 0.7 + 0.4) / 4, 4);
  });
});

describe('attempts', () => {
  it('are those of each image by itself', () => {
    const { outcome } = play(
      { ...PLAN, ...reviewBy('automatic', { attempts: 3 }) },
      flagging('1.1', '1.2', '2.1', '2.2', '2.3'),
    );
    expect(outcome.takesOf).toEqual([3, 3, 1, 1]);
    expect(outcome.images.map(({ fate }) => fate)).toEqual(['good', 'given up', 'good', 'good']);
  });
});
