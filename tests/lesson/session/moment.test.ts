import { describe, expect, it } from 'vitest';
import {
  imagesWith,
  keptAt,
  knownAt,
  nextMoment,
  nextPoint,
  pastWait,
  scanAt,
  stepAt,
  tallyAt,
} from '../../../src/lesson/session/moment.js';
import type { ShownScan, ShownStep } from '../../../src/lesson/session/play.js';
import type { Point } from '../../../src/lesson/session/player.js';

const LOOK = { state: 'sound', radius: 8, halfAngle: 20, number: 0 } as const;

function scan(image: number, lostAt: number | null): ShownScan {
  return {
    ...{
      before: LOOK,
      after: LOOK,
      changesAt: 1,
      image,
      region: image,
      place: `region ${image + 1}`,
      take: 0,
      pass: 'a',
    },
    ...{ duration: 600, lostAt, quality: 1, accept: 0.5 },
  };
}

function step(start: number, end: number, words: string, more: Partial<ShownStep> = {}): ShownStep {
  return { instrument: 0, start, end, activity: 'locating and relocating', words, scan: null, ...more };
}

function point(number: number, time: number): Point {
  return {
    ...{ point: number, time, instrument: 0, kind: 'sharp', tip: 0, images: number, radiusRead: null },
    ...{ doubt: null, inDoubt: null, ruled: 'go on', choice: 'go on' },
  };
}

/** A scan that is flagged a minute after its end, a scan that is kept, and a night. */
const TOLD = {
  end: 60_000,
  steps: [
    step(0, 100, 'locate'),
    step(100, 700, 'scan', { activity: 'scanning kept', scan: scan(0, 760) }),
    step(700, 760, 'review', { activity: 'reviewing' }),
    step(760, 1360, 'scan', { activity: 'scanning kept', scan: scan(1, null) }),
    step(1360, 50_000, 'wait', { activity: 'waiting for a booking' }),
    step(50_000, 60_000, 'warm up', { activity: 'warming up and settling' }),
  ],
  points: [point(0, 100), point(1, 760), point(2, 50_000)],
};

describe('a moment of a session', () => {
  it('counts a scan as kept until its image is flagged, and as lost from then on', () => {
    expect(Object.fromEntries(tallyAt(TOLD, 700))).toEqual({ 'locating and relocating': 100, 'scanning kept': 600 });
    expect(Object.fromEntries(tallyAt(TOLD, 1000))).toEqual({
      ...{ 'locating and relocating': 100, 'scanning lost': 600, reviewing: 60 },
      'scanning kept': 240,
    });
  });

  it('splits all the time up to it', () => {
    for (const time of [0, 50, 650, 760, 30_000, 60_000])
      expect([...tallyAt(TOLD, time).values()].reduce((sum, each) => sum + each, 0)).toBe(time);
  });

  it('counts images as kept once they are scanned, until they are flagged', () => {
    expect([99, 699, 700, 759, 760, 1360].map((time) => keptAt(TOLD, time))).toEqual([0, 0, 1, 1, 0, 1]);
  });

  it('has the step that runs, and none at the very end', () => {
    expect(stepAt(TOLD, 0)?.words).toBe('locate');
    expect(stepAt(TOLD, 100)?.words).toBe('scan');
    expect(stepAt(TOLD, 60_000)).toBeNull();
  });

  it('shows the scan that runs as far as it has come, and a finished one until the next', () => {
    expect(scanAt(TOLD, 99)).toBeNull();
    expect(scanAt(TOLD, 250)).toMatchObject({ scan: { image: 0 }, done: 0.25 });
    expect(scanAt(TOLD, 750)).toMatchObject({ scan: { image: 0 }, done: 1 });
    expect(scanAt(TOLD, 40_000)).toMatchObject({ scan: { image: 1 }, done: 1 });
  });

  it('knows of the tip what was known at the last point, and where the next one is', () => {
    expect(knownAt(TOLD, 99)).toBeNull();
    expect(knownAt(TOLD, 800)?.point).toBe(1);
    expect(nextPoint(TOLD, 101)?.point).toBe(1);
    expect(nextPoint(TOLD, 50_001)).toBeNull();
    const inDoubt = { ...point(3, 50_002), inDoubt: { images: 2, scanning: 1200 } };
    expect(nextPoint({ ...TOLD, points: [...TOLD.points, inDoubt] }, 50_001)).toBeNull();
  });

  it('counts the scan that was begun since the tip was last thought about', () => {
    expect(imagesWith(TOLD, point(1, 760), 760)).toBe(2);
    expect(imagesWith(TOLD, point(2, 50_000), 55_000)).toBe(2);
  });

  it('is followed by the next step, and by the end after the last', () => {
    expect([0, 650, 760, 55_000].map((time) => nextMoment(TOLD, time))).toEqual([100, 700, 1360, 60_000]);
  });

  it('passes over a night, and over nothing else', () => {
    expect([250, 1360, 49_000].map((time) => pastWait(TOLD, time))).toEqual([250, 50_000, 49_000]);
  });
});
