import { describe, expect, it } from 'vitest';
import { campaignAt, continueCampaign, runCampaign } from '../../src/campaign/campaign.js';
import type { Raw } from '../support/run.js';
import { HOPPING, kind, laidOver, pass, sceneModel } from '../support/scene.js';
import { Minutes, type Script, ScriptedLuck } from '../support/stage.js';

const MINUTE = 60e6;

interface Halves {
  /** What is done from there on, with the clock, where it goes on undisturbed. */
  readonly undisturbed: readonly string[];
  /** The same where it was written down, and taken up again. */
  readonly takenUp: readonly string[];
  readonly names: readonly string[];
}

/** The scene with what a test lays over it, stopped after so many minutes and taken up again with common random numbers. */
function halves(over: Raw, minutes: number, script: Script = {}): Halves {
  const model = sceneModel(over);
  const whole = new Minutes();
  runCampaign(model, new ScriptedLuck(script), whole);
  const state = campaignAt(model, new ScriptedLuck(script), model.start + minutes * MINUTE);
  if (state === null) throw new Error('It is over by then.');
  const rest = new Minutes();
  continueCampaign(model, new ScriptedLuck(script), state, rest);
  const takenUp = rest.lines();
  return { undisturbed: whole.lines().slice(-takenUp.length), takenUp, names: rest.names() };
}

/** Checks fail whose running count, from 0, on their tip is one of these. */
const failing = (...counts: readonly number[]): Script => ({
  checkJudgement: (_a, _b, _c, count) => (counts.includes(count) ? 0.1 : 0.9),
});
const check = (every: number): Raw => ({
  noticing: { check: { every, time: '1 min', sensitivity: 1, falseAlarm: 0.5, repeatSuspects: true } },
});

describe('a campaign that is taken up', () => {
  it('knows which takes no check has confirmed: those of before are suspect as well', () => {
    const plan = { regions: 1, passes: ['a', 'b', 'c', 'd'].map((name) => pass(name, 10)) };
    const { undisturbed, takenUp, names } = halves({ plan, ...check(3) }, 40, failing(0));
    expect(takenUp).toEqual(undisturbed);
    const done = names.filter((name) => /^(?:scan|check|exchange)/u.test(name)).join(' ');
    expect(done).toMatch(/^scan 3 check exchange scan 1 scan 2 scan 3/u);
  });

  it('knows that of a parked tip too', () => {
    const passes = ['a', 'b', 'c', 'd'].map((name, i) => pass(name, 10, { tip: i % 2 === 0 ? 'sharp' : 'soft' }));
    const over = laidOver(HOPPING, {
      plan: { regions: 1, passes: [...passes, pass('e', 10)] },
      tips: { soft: kind() },
      workflows: { hop: { chip: { sites: { sharp: 5, soft: 5 } } } },
      ...check(3),
    });
    // The sharp tip has made its first take and is parked; its check after the third one fails.
    const { undisturbed, takenUp, names } = halves(over, 60, failing(0));
    expect(takenUp).toEqual(undisturbed);
    const done = names.filter((name) => /^(?:scan|check)/u.test(name)).join(' ');
    expect(done).toContain('scan 5 check');
    expect(done).toContain('scan 1');
  });

  it('makes the next coarse move when it is due', () => {
    const over = laidOver(HOPPING, {
      plan: { regions: 1, passes: ['a', 'b', 'c', 'd', 'e', 'f'].map((name) => pass(name, 10)) },
      workflows: { hop: { fineRange: '300 um', chip: { sites: { sharp: 9 }, pitch: '100 um' } } },
      rules: { after: '1 image' },
    });
    const { undisturbed, takenUp, names } = halves(over, 75);
    expect(takenUp).toEqual(undisturbed);
    expect(names.filter((name) => name === 'coarseMove')).toHaveLength(1);
  });

  it('waits for the delivery that is under way', () => {
    const over = {
      plan: { regions: 1, passes: ['a', 'b', 'c', 'd'].map((name) => pass(name, 10)) },
      rules: { after: '1 image' },
      stock: { tips: { sharp: { atHand: 2, restock: '3 h' } } },
    };
    const { undisturbed, takenUp, names } = halves(over, 50);
    expect(takenUp).toEqual(undisturbed);
    expect(names).toContain('waiting for stock');
  });

  it('judges what it finds on its desk by the tip that made it', () => {
    const over = {
      plan: { regions: 1, passes: ['a', 'b', 'c', 'd', 'e'].map((name) => pass(name, 240)) },
      bookings: { start: 'Mo 16:40', unattended: 'scanning' },
      operators: { hours: 'Mo-Fr 09:00-17:00' },
      noticing: { review: { by: 'operator', time: '5 min', falseAlarm: 0.5 } },
    };
    const script: Script = { review: (_a, _b, image, running) => (image === 1 && running === 0 ? 0.1 : 0.9) };
    const { undisturbed, takenUp, names } = halves(over, 9 * 60, script);
    expect(takenUp).toEqual(undisturbed);
    expect(names.filter((name) => /^(?:scan|exchange)/u.test(name)).join(' ')).toContain('exchange scan 2');
  });
});
