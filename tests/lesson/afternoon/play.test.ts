import { stringify } from 'yaml';
import { describe, expect, it } from 'vitest';
import { runCampaign } from '../../../src/campaign/campaign.js';
import type { Choice } from '../../../src/lesson/afternoon/choices.js';
import { playAfternoon, ruledAfternoon } from '../../../src/lesson/afternoon/play.js';
import { modelOf } from '../../support/run.js';
import { after, kind, laidOver, pass, type Raw, SCENE, type Script, ScriptedLuck } from '../../support/stage.js';

/** Three images with a tip that is fouled for good half-way through the third. */
const FOULED: Raw = {
  plan: { passes: [pass('a', 10), pass('b', 10), pass('c', 10)] },
  tips: { sharp: kind(after(2.5, { cause: 'fouling', quality: 0.2, clears: 'never' })) },
  noticing: { check: { every: 50, time: '3 min', sensitivity: 1, falseAlarm: 0, radiusError: 0.1 } },
  rules: { cleanFirst: { tries: 0, time: '6 min', success: 0.9 } },
};

function afternoonOf(choices: readonly Choice[], over: Raw = {}, script: Script = {}) {
  const model = modelOf(stringify(laidOver(SCENE, laidOver(FOULED, over))));
  const luck = new ScriptedLuck(script);
  let afternoon = playAfternoon('one', model, luck, []);
  const decisions = [];
  for (const choice of choices) {
    if (afternoon.question === null) throw new Error('Nothing more is asked.');
    decisions.push({ point: afternoon.question.point, choice });
    afternoon = playAfternoon('one', model, luck, decisions);
  }
  return { ...afternoon, model, luck, done: afternoon.steps.map(({ words }) => words) };
}

describe('a doubtful tip', () => {
  it('stops the afternoon as its image is flagged, with what is known of the tip and no more', () => {
    const { question, outcome, done, offered, told, end } = afternoonOf([]);
    expect(question).toEqual({
      ...{ point: 3, time: 3000, instrument: 0, kind: 'sharp', tip: 0, images: 3 },
      ...{ radiusRead: null, doubt: 'flagged by an image', ruled: 'replace', choice: null },
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
    const { question, steps } = afternoonOf(['go on']);
    expect(steps.filter(({ scan }) => scan !== null).map(({ scan }) => [scan?.image, scan?.take])).toEqual([
      [0, 0],
      [1, 0],
      [2, 0],
      [2, 1],
    ]);
    expect(question).toMatchObject({ doubt: 'flagged by an image', images: 4, tip: 0 });
  });

  it('checked fails the check, and its apex radius has been read', () => {
    const { question, done } = afternoonOf(['check']);
    expect(done.at(-1)).toBe('check the tip');
    expect(question?.doubt).toBe('failed a check');
    expect(question?.radiusRead).toBeCloseTo(10, 9);
  });

  it('cleaned is as good as new where cleaning succeeds, and the rules need not have allowed it', () => {
    const { outcome, question, done } = afternoonOf(['clean'], {}, { cleaning: () => 0.5 });
    expect(question).toBeNull();
    expect(done.filter((words) => words === 'clean the tip')).toHaveLength(1);
    expect(outcome).toMatchObject({ good: 3, tips: 1, takes: 4 });
  });

  it('replaced goes for the reason for which it was doubted', () => {
    const { outcome } = afternoonOf(['replace']);
    expect(outcome?.tipRecords.map(({ went }) => went).at(0)).toBe('flagged by an image');
    expect(outcome?.tips).toBe(2);
  });
});

describe('a tip whose use is reached', () => {
  const over = { rules: { after: '2 images' }, tips: { sharp: kind() } };

  it('is asked about once: whoever goes on with it is not asked before every take', () => {
    const { question, outcome } = afternoonOf(['go on'], laidOver(over, { tips: { sharp: { hazards: [] } } }));
    expect(question).toBeNull();
    expect(outcome).toMatchObject({ good: 3, tips: 1 });
  });
});

describe('a tip of which nobody has doubts', () => {
  it('can be replaced all the same, by choice', () => {
    const over = { tips: { sharp: kind() } };
    const { model, luck } = afternoonOf([], over);
    const { outcome } = playAfternoon('one', model, luck, [{ point: 1, choice: 'replace' }]);
    expect(outcome?.tipRecords.map(({ went }) => went)).toEqual(["the operator's choice", 'end of the experiment']);
  });
});

describe('a scan', () => {
  it('shows how the tip was before and after what came unseen, and when that was', () => {
    const { steps } = afternoonOf([]);
    const scan = steps.find(({ scan: each }) => each?.image === 2)?.scan;
    expect(scan).toMatchObject({ before: { state: 'sound', radius: 10 }, after: { state: 'fouled' }, lostAt: 3000 });
    expect(scan?.changesAt).toBeCloseTo(0.5, 3);
  });
});

describe('the same afternoon by the rules', () => {
  it('is the usual campaign on the same luck, with its timeline', () => {
    const { model, luck } = afternoonOf([]);
    const { outcome, timeline } = ruledAfternoon('rules', model, luck);
    expect(JSON.stringify(outcome)).toBe(JSON.stringify(runCampaign(model, luck)));
    expect(timeline.strategy).toBe('rules');
    expect(timeline.segments.at(-1)?.end).toBe(outcome.totalTime);
  });
});
