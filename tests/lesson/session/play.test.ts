import { describe, expect, it } from 'vitest';
import { runCampaign } from '../../../src/campaign/campaign.js';
import { accountOf } from '../../../src/lesson/session/account.js';
import type { Choice } from '../../../src/lesson/session/choices.js';
import { inSession } from '../../../src/lesson/session/ending.js';
import { playSession, ruledSession } from '../../../src/lesson/session/play.js';
import type { Raw } from '../../support/run.js';
import { after, kind, laidOver, pass, sceneModel } from '../../support/scene.js';
import { type Script, ScriptedLuck } from '../../support/stage.js';
import { nonEmpty } from '../../support/non-empty.js';

/** Three images with a tip that is fouled for good half-way through the third. */
const FOULED: Raw = {
  plan: { passes: [pass('a', 10), pass('b', 10), pass('c', 10)] },
  tips: { sharp: kind(after(2.5, { cause: 'fouling', quality: 0.2, clears: 'never' })) },
  noticing: { check: { every: 50, time: '3 min', sensitivity: 1, falseAlarm: 0, radiusError: 0.1 } },
  rules: { cleanFirst: { tries: 0, time: '6 min', success: 0.9 } },
};

function sessionOf(choices: readonly Choice[], over: Raw = {}, script: Script = {}) {
  const model = sceneModel(laidOver(FOULED, over));
  const luck = new ScriptedLuck(script);
  let session = playSession('one', model, luck, []);
  const decisions = [];
  for (const choice of choices) {
    if (session.question === null) throw new Error('Nothing more is asked.');
    decisions.push({ point: session.question.point, choice });
    session = playSession('one', model, luck, decisions);
  }
  return { ...session, model, luck, done: session.steps.map(({ words }) => words) };
}

describe('a doubtful tip', () => {
  it('stops the session as its image is flagged, with what is known of the tip and no more', () => {
    const { question, outcome, done, offered, told, end } = sessionOf([]);
    expect(question).toEqual({
      ...{ point: 3, time: 3000, instrument: 0, kind: 'sharp', tip: 0, images: 3 },
      ...{ radiusRead: null, doubt: 'flagged by an image', inDoubt: null, ruled: 'replace', choice: null },
    });
    expect(end).toBe(3000);
    expect(outcome).toBeNull();
    expect(offered).toEqual(['go on', 'check', 'clean', 'replace']);
    expect(done.slice(0, 6)).toEqual(['set up', 'warm up', 'locate', 'approach', 'scan', 'review']);
    expect(told).toEqual([
      { time: 600, what: 'mounted', detail: 'sharp 1' },
      { time: 3000, what: 'flagged', detail: 'take 1 of image 3' },
    ]);
  });

  it('gone on with is trusted until the next image is flagged', () => {
    const { question, steps } = sessionOf(['go on']);
    expect(steps.filter(({ scan }) => scan !== null).map(({ scan }) => [scan?.image, scan?.take])).toEqual([
      [0, 0],
      [1, 0],
      [2, 0],
      [2, 1],
    ]);
    expect(question).toMatchObject({ doubt: 'flagged by an image', images: 4, tip: 0 });
  });

  it('checked fails the check, and its apex radius has been read', () => {
    const { question, done } = sessionOf(['check', 'keep']);
    expect(done.at(-1)).toBe('check the tip');
    expect(question?.doubt).toBe('failed a check');
    expect(question?.radiusRead).toBeCloseTo(10, 9);
  });

  it('cleaned is as good as new where cleaning succeeds, and the rules need not have allowed it', () => {
    const { outcome, question, done } = sessionOf(['clean'], {}, { cleaning: () => 0.5 });
    expect(question).toBeNull();
    expect(done.filter((words) => words === 'clean the tip')).toHaveLength(1);
    expect(outcome).toMatchObject({ good: 3, tips: 1, takes: 4 });
  });

  it('replaced goes for the reason for which it was doubted', () => {
    const { outcome } = sessionOf(['replace']);
    expect(outcome?.tipRecords.map(({ went }) => went).at(0)).toBe('flagged by an image');
    expect(outcome?.tips).toBe(2);
  });
});

describe('images that a failed check puts in doubt', () => {
  it('are counted, with the time that scanning them again takes, and are asked about before the tip is', () => {
    const { question, end, steps } = sessionOf(['check']);
    expect(question).toMatchObject({
      ...{ point: 4, doubt: 'images since the last check', ruled: 'take again' },
      inDoubt: { images: 2, scanning: 1200 },
    });
    expect(end).toBe(steps.at(-1)?.end);
  });

  it('are taken again where that is wanted', () => {
    const { steps } = sessionOf(['check', 'take again', 'replace']);
    expect(steps.flatMap(({ scan }) => (scan === null ? [] : [[scan.image, scan.take]]))).toEqual([
      ...[0, 1, 2].map((image) => [image, 0]),
      ...[0, 1, 2].map((image) => [image, 1]),
    ]);
  });

  it('stay as they are where they are kept, and are not asked about again', () => {
    const { outcome } = sessionOf(['check', 'keep', 'replace']);
    expect(outcome).toMatchObject({ good: 3, takes: 4 });
  });

  it('are decided by nothing that is meant for a tip, as a link may say it', () => {
    const { model, luck } = sessionOf(['check']);
    const decisions = [
      { point: 3, choice: 'check' },
      { point: 4, choice: 'clean' },
    ] as const;
    expect(playSession('one', model, luck, decisions).question?.point).toBe(4);
  });
});

describe('the booked time', () => {
  /** Three images from minute 20 to minute 50, by a tip that stays sound; the booked time ends before the third. */
  const over = (minutes: string): Raw => ({
    tips: { sharp: { hazards: [] } },
    bookings: { start: 'Mo 09:00', hours: `Mo 09:00-${minutes}` },
  });
  const played = (over: Raw) => {
    const model = inSession(sceneModel(laidOver(FOULED, over)));
    return { model, ...playSession('one', model, new ScriptedLuck({}), []) };
  };

  it('ends the session, with what is kept: no scan begins that does not fit', () => {
    const { steps, end, bookedUntil, outcome, timeline } = played(over('09:49'));
    expect(bookedUntil).toBe(49 * 60);
    expect(end).toBe(49 * 60);
    expect(steps.filter(({ scan }) => scan !== null)).toHaveLength(2);
    expect(steps.at(-1)).toMatchObject({ words: 'wait', activity: 'waiting for a booking', end: 49 * 60 });
    expect(timeline.segments.at(-1)?.end).toBe(49 * 60);
    if (outcome === null) throw new Error('It is not over.');
    expect(accountOf('one', outcome, { steps, end })).toMatchObject({
      ...{ good: 2, unkept: 1, attempts: 2, isComplete: false, time: 49 * 60 },
    });
  });

  it('does not hold up a session that is done before', () => {
    const { end, outcome, steps } = played(over('09:51'));
    expect(end).toBe(50 * 60);
    if (outcome === null) throw new Error('It is not over.');
    expect(accountOf('one', outcome, { steps, end })).toMatchObject({ good: 3, unkept: 0, isComplete: true });
  });

  it('is what is granted, where something is granted, and has no end where the instrument is always booked', () => {
    const granted = laidOver(over('09:49'), { bookings: { hours: 'Mo-Fr 09:00-09:49', allocation: '2 sessions' } });
    const { end, bookedUntil } = played(granted);
    expect(bookedUntil).toBe((24 * 60 + 49) * 60);
    expect(end).toBeLessThan((24 * 60 + 49) * 60);
    expect(played({ tips: { sharp: { hazards: [] } } })).toMatchObject({ bookedUntil: null, end: 50 * 60 });
  });

  it('leaves to the rules what comes after it: nobody is asked any more', () => {
    const fouled = laidOver(over('09:49'), { tips: { sharp: kind(after(2.5, { cause: 'breakage' })) } });
    const { question, points, outcome } = played(fouled);
    expect(question).toBeNull();
    expect(nonEmpty(points).every(({ time }) => time < 49 * 60)).toBe(true);
    expect(outcome?.tips).toBe(2);
  });
});

describe('a tip whose use is reached', () => {
  const over = { rules: { after: '2 images' }, tips: { sharp: kind() } };

  it('is asked about once: whoever goes on with it is not asked before every take', () => {
    const { question, outcome } = sessionOf(['go on'], laidOver(over, { tips: { sharp: { hazards: [] } } }));
    expect(question).toBeNull();
    expect(outcome).toMatchObject({ good: 3, tips: 1 });
  });
});

describe('a tip of which nobody has doubts', () => {
  it('can be replaced all the same, by choice', () => {
    const over = { tips: { sharp: kind() } };
    const { model, luck } = sessionOf([], over);
    const { outcome } = playSession('one', model, luck, [{ point: 1, choice: 'replace' }]);
    expect(outcome?.tipRecords.map(({ went }) => went)).toEqual(["the operator's choice", 'end of the experiment']);
  });
});

describe('a scan', () => {
  it('shows how the tip was before and after what came unseen, and when that was', () => {
    const { steps } = sessionOf([]);
    const scan = steps.find(({ scan: each }) => each?.image === 2)?.scan;
    expect(scan).toMatchObject({ before: { state: 'sound', radius: 10 }, after: { state: 'fouled' }, lostAt: 3000 });
    expect(scan?.changesAt).toBeCloseTo(0.5, 3);
  });
});

describe('a session with several samples', () => {
  it('says which sample is on, and counts regions within it', () => {
    const plan = { samples: [{ name: 'film A' }, { name: 'film B' }], regions: 2, passes: [pass('a', 10)] };
    const { steps } = sessionOf([], { plan, tips: { sharp: { hazards: [] } } });
    expect(steps.flatMap(({ scan }) => scan?.place ?? [])).toEqual([
      ...['sample film A, region 1', 'sample film A, region 2'],
      ...['sample film B, region 1', 'sample film B, region 2'],
    ]);
    expect(steps.map(({ words }) => words)).toContain('change of sample');
  });
});

describe('the same session by the rules', () => {
  it('is the usual campaign with common random numbers, with its timeline', () => {
    const { model, luck } = sessionOf([]);
    const { outcome, timeline } = ruledSession('rules', model, luck);
    expect(JSON.stringify(outcome)).toBe(JSON.stringify(runCampaign(model, luck)));
    expect(timeline.strategy).toBe('rules');
    expect(timeline.segments.at(-1)?.end).toBe(outcome.totalTime);
  });
});
