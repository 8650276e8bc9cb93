import { describe, expect, it } from 'vitest';
import { rushingLesson } from '../../src/lesson/rushing-words.js';
import type { AtPace } from '../../src/lesson/tasks/rushing.js';

const around = (value: number, half: number) => ({ value, low: value - half, high: value + half });

/** Hours and yield at a pace, each with the half-width of its interval. */
function at(pace: number, hours: number, yielded: number, half = 60): AtPace {
  const lost = around(1, 0.1);
  return { pace, time: around(3600 * hours, half), lost, yield: around(yielded, 0.01), tips: lost };
}

describe('what the numbers of rushing teach', () => {
  it('is that losses win only where the fastest pace takes clearly more time than the best', () => {
    const [first] = rushingLesson([at(0.5, 5, 0.9), at(1, 4, 0.9), at(1.5, 3, 0.9), at(3, 4.5, 0.7)]);
    expect(first).toBe(
      'In this scenario faster scanning saves time up to about 1.5 × the usual pace; beyond that the losses win: at 3 × the usual pace the same images take 1 h 30 min more.',
    );
    expect(rushingLesson([at(1, 3, 0.9), at(3, 4, 0.9)])[0]).toContain('saves no time, as the losses win');
  });

  it('never says so where time falls on and on, as without tracking and acceleration', () => {
    const [first] = rushingLesson([at(0.5, 5, 0.9), at(1, 4, 0.9), at(3, 2, 0.9)]);
    expect(first).not.toContain('losses win');
    expect(first).toContain('saves time up to the fastest pace tried');
    expect(first).toContain('no pace that was tried is too fast');
  });

  it('names the yield where that is what a gain in time costs', () => {
    const [first] = rushingLesson([at(1, 4, 0.93), at(3, 2, 0.5)]);
    expect(first).toContain('the yield falls from 93.0 % to 50.0 %');
  });

  it('claims no difference that lies within the intervals', () => {
    const [first] = rushingLesson([at(1, 4, 0.9, 3600), at(2, 3.9, 0.9, 3600), at(3, 4.1, 0.9, 3600)]);
    expect(first).toContain('makes no clear difference to the time');
  });

  it('never looks for time in a step that keeps anybody safe', () => {
    for (const points of [
      [at(1, 3, 0.9), at(3, 4, 0.9)],
      [at(1, 4, 0.9), at(3, 2, 0.9)],
      [at(1, 4, 0.9), at(3, 2, 0.4)],
    ])
      expect(rushingLesson(points)[1]).toContain(
        'never look for time in the steps that keep you or the instrument safe',
      );
  });
});
