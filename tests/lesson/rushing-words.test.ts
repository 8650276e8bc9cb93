import { describe, expect, it } from 'vitest';
import { rushingLesson } from '../../src/lesson/rushing-words.js';
import type { AtPace } from '../../src/lesson/tasks/rushing.js';

const around = (value: number, half: number) => ({ value, low: value - half, high: value + half });

type Unjudged = Omit<AtPace, 'isWorse'>;

/** As where nothing is paired: worse is what lies beyond the best one's interval. */
function judged(points: readonly Unjudged[]): readonly AtPace[] {
  const best = Math.min(...points.map(({ perGood }) => perGood.high));
  return points.map((point) => ({ ...point, isWorse: point.perGood.low > best }));
}

/** The sentences, with plain spaces. */
function lessonOf(points: readonly Unjudged[]): readonly string[] {
  return rushingLesson(judged(points), 'faster scanning').map((sentence) =>
    sentence.replaceAll('\u202f', ' ').replaceAll('\u00a0', ' '),
  );
}

/** Hours and yield at a pace, each with the half-width of its interval. */
function at(pace: number, hours: number, yielded: number, half = 60): Unjudged {
  const lost = around(1, 0.1);
  const [time, perGood] = [3600 * hours, (3600 * hours) / yielded].map((mean) => around(mean, half));
  return { at: pace, time, perGood, lost, yield: around(yielded, 0.01), tips: lost };
}

describe('what the numbers of rushing teach', () => {
  it('is that losses win only where the fastest pace takes clearly more time than the best', () => {
    const [first] = lessonOf([at(0.5, 5, 0.9), at(1, 4, 0.9), at(1.5, 3, 0.9), at(3, 4.5, 0.7)]);
    expect(first).toBe(
      'In this scenario faster scanning saves time up to about 1.5 × the usual pace; beyond that the losses win: at 3 × the usual pace a good image takes 3 h 6 min more.',
    );
    expect(lessonOf([at(1, 3, 0.9), at(3, 4, 0.9)])[0]).toContain('saves no time, as the losses win');
    expect(rushingLesson(judged([at(1, 3, 0.9), at(3, 4, 0.9)]), 'quicker hands')[0]).toContain(
      'quicker hands save no time',
    );
  });

  it('never says so where time falls on and on, as without tracking and acceleration', () => {
    const [first] = lessonOf([at(0.5, 5, 0.9), at(1, 4, 0.9), at(3, 2, 0.9)]);
    expect(first).not.toContain('losses win');
    expect(first).toContain('saves time up to the fastest pace tried');
    expect(first).toContain('no pace that was tried is too fast');
  });

  it('names the yield where that is what a gain in time costs', () => {
    const [first] = lessonOf([at(1, 4, 0.931), at(3, 2, 0.507)]);
    expect(first).toContain('the yield falls from 93.1 % to 50.7 %');
  });

  it('claims no difference that lies within the intervals', () => {
    const [first] = lessonOf([at(1, 4, 0.9, 3600), at(2, 3.9, 0.9, 3600), at(3, 4.1, 0.9, 3600)]);
    expect(first).toContain('makes no clear difference to the time');
  });

  it('says whether the optimum lies inside the range, and at which end where it does not', () => {
    const [, inside] = lessonOf([at(0.5, 5, 0.9), at(1.5, 3, 0.9), at(3, 4.5, 0.7)]);
    expect(inside).toBe('The optimum lies inside the range, at about 1.5 × the usual pace.');
    const [, none] = lessonOf([at(1, 4, 0.9), at(3, 2, 0.9)]);
    expect(none).toContain(
      'The range shows no optimum inside: nothing that was tried is clearly better than its end, 3 ×',
    );
    const [, slow] = lessonOf([at(1, 2, 0.9), at(2, 1.99, 0.9), at(3, 4, 0.9)]);
    expect(slow).toContain('clearly better than its end, the usual pace');
    const [, flat] = lessonOf([at(1, 4, 0.9, 3600), at(2, 3.9, 0.9, 3600), at(3, 4.1, 0.9, 3600)]);
    expect(flat).toMatch(/^The range shows no optimum: /u);
  });

  it('never looks for time in a step that keeps anybody safe', () => {
    for (const points of [
      [at(1, 3, 0.9), at(3, 4, 0.9)],
      [at(1, 4, 0.9), at(3, 2, 0.9)],
      [at(1, 4, 0.9), at(3, 2, 0.4)],
    ])
      expect(lessonOf(points)[2]).toContain('never look for time in the steps that keep you or the instrument safe');
  });
});
