import { describe, expect, it } from 'vitest';
import { STEP_NUMBER } from '../../src/campaign/steps.js';
import type { PURPOSES } from '../../src/chance/luck.js';
import type { Raw } from '../support/run.js';
import { after, HOPPING, kind, laidOver, pass } from '../support/scene.js';
import { play, type Script } from '../support/stage.js';

type Indices = readonly [a: number, b: number, c: number, d: number];

/** Plays a scene; gives which draws of a purpose were asked for, in order and as often as they were. */
function drawn(
  over: Raw,
  purpose: keyof typeof PURPOSES,
  worth: (...at: Indices) => number = () => 0.5,
  script: Script = {},
) {
  const asked: Indices[] = [];
  play(over, {
    ...script,
    [purpose]: (...at: Indices) => {
      asked.push(at);
      return worth(...at);
    },
  });
  return asked;
}
const TWO_KINDS = { plan: { passes: [pass('a', 10), pass('b', 10, { tip: 'soft' })] }, tips: { soft: kind() } };
/** Takes away the fixed time of a step of the scene. */
const UNFIXED = { fixed: undefined };
const hop = (over: Raw) => laidOver(HOPPING, over);
const ofStep = (step: keyof typeof STEP_NUMBER, indices: readonly Indices[]) =>
  indices.filter(([, number]) => number === STEP_NUMBER[step]);

describe('a draw', () => {
  it('of a dead site is that of instrument, kind, chip and site', () => {
    const chip = { sites: { sharp: 2 }, dead: { sharp: 0.3 } };
    const over = { plan: { regions: 8 }, instruments: 2, rules: { after: '1 image' }, workflows: { hop: { chip } } };
    // Site 0 of the first chip is taken at the set-up, undrawn.
    const each = (instrument: number): readonly Indices[] => [
      [instrument, 0, 0, 1],
      [instrument, 0, 1, 0],
      [instrument, 0, 1, 1],
    ];
    expect(drawn(hop(over), 'dead').sort(([a], [b]) => a - b)).toEqual([...each(0), ...each(1)]);
  });

  it('of a tip is that of its number by instrument and kind, which mishandled tips count in and dead sites do not', () => {
    const radius = { nominal: '10 nm', geometricSd: 2 };
    const tips = { sharp: { radius }, soft: { radius } };
    const mishandled = { mishandling: (_i: number, _s: number, occurrence: number) => (occurrence === 0 ? 0.01 : 0.9) };
    const swap = { ...TWO_KINDS, tips, workflows: { swap: { mishandling: { probability: 0.1 } } } };
    expect(drawn(swap, 'radius', undefined, mishandled)).toEqual([
      [0, 0, 0, 0],
      [0, 1, 0, 0],
      [0, 1, 1, 0],
    ]);
    const chip = { sites: { sharp: 9 }, dead: { sharp: 0.3 } };
    const dead = { dead: (_i: number, _k: number, _c: number, site: number) => (site === 1 ? 0.1 : 0.9) };
    const over = { plan: { passes: [pass('a', 10), pass('b', 10)] }, tips, rules: { after: '1 image' } };
    expect(drawn(hop(laidOver(over, { workflows: { hop: { chip } } })), 'radius', undefined, dead)).toEqual([
      [0, 0, 0, 0],
      [0, 0, 1, 0],
    ]);
  });

  it('of a review is that of the image, in whatever order, and of its attempt, counted on though the specimen is lost', () => {
    const lost = { specimenLoss: (_i: number, _s: number, occurrence: number) => (occurrence === 1 ? 0.001 : 0.9) };
    const over = hop({
      plan: { passes: [pass('a', 10), pass('b', 10)] },
      rules: { after: '1 image' },
      workflows: { hop: { specimenLoss: 0.01 } },
    });
    expect(drawn(over, 'review', undefined, lost)).toEqual([
      [0, 0, 0, 0],
      [0, 0, 0, 1],
      [0, 0, 1, 0],
    ]);
    // Region and pass number it: tip-first takes 0, 2, 1, 3 of two regions and two kinds.
    const order = { ...TWO_KINDS, plan: { ...TWO_KINDS.plan, order: 'tip-first', regions: 2 } };
    expect(drawn(order, 'review').map(([, , image]) => image)).toEqual([0, 2, 1, 3]);
  });

  it('of a watch is that of the image, its attempt, and the event within the scan', () => {
    const over = {
      tips: { sharp: kind(after(0.2, { cause: 'fouling', quality: 0.3 }), after(0.6, { cause: 'breakage' })) },
      noticing: { attempts: 2, watch: { by: 'automatic', sensitivity: 0.4, delay: '1 min' } },
    };
    expect(drawn(over, 'watch')).toEqual([
      [0, 0, 0, 0],
      [0, 1, 0, 0],
      [0, 0, 0, 1],
      [0, 1, 0, 1],
    ]);
  });

  it('of a check, a cleaning or a reconditioning is that of the tip and of how many it has had', () => {
    const over = {
      plan: { passes: [pass('a', 10), pass('b', 10)] },
      tips: { sharp: kind(after(0.5, { cause: 'fouling', quality: 0.1 })) },
      noticing: { review: { by: 'nobody' }, check: { every: 1, time: '1 min', sensitivity: 1, repeatSuspects: false } },
      rules: { cleanFirst: { tries: 2, success: 0.1 }, recondition: { tries: 1, newApex: 0.1, breaks: 0.1 } },
    };
    // A failed check, two cleanings and one reconditioning with a check after each; then the next tip.
    const counts = (purpose: 'checkJudgement' | 'checkReading' | 'cleaning' | 'reconditioning') =>
      drawn(over, purpose)
        .map(([, , tip, count]) => `${tip} ${count}`)
        .join(', ');
    expect(counts('checkJudgement')).toBe('0 0, 0 1, 0 2, 0 3, 1 0');
    expect(counts('checkReading')).toBe('0 0, 0 1, 0 2, 0 3, 1 0');
    expect(counts('cleaning')).toBe('0 0, 0 1');
    expect(counts('reconditioning')).toBe('0 0');
  });

  it('of a specimen is that of instrument, sample and how many were prepared of it', () => {
    const prepare = { ...UNFIXED, min: '10 min', mode: '20 min', max: '60 min', success: 0.4 };
    const over = hop({ plan: { samples: 2 }, workflows: { hop: { prepareAt: 'bench', steps: { prepare } } } });
    const succeeds = (_i: number, _s: number, occurrence: number, sample: number) =>
      occurrence === 1 - sample ? 0.1 : 0.9;
    const tries: readonly Indices[] = [
      [0, STEP_NUMBER.prepare, 0, 0],
      [0, STEP_NUMBER.prepare, 1, 0],
      [0, STEP_NUMBER.prepare, 0, 1],
    ];
    expect(drawn(over, 'stepSuccess', succeeds)).toEqual(tries);
    expect(drawn(over, 'stepTime', undefined, { stepSuccess: succeeds })).toEqual(tries);
  });

  it('of the time or success of a step, of mishandling or loss is that of instrument, step and occurrence', () => {
    const relocate = { ...UNFIXED, usual: '3 min', p90: '6 min', success: 0.6 };
    const over = {
      plan: { passes: [pass('a', 10), pass('b', 10), pass('c', 10)] },
      rules: { after: '1 image' },
      workflows: { swap: { mishandling: { probability: 0.1 }, steps: { relocate } } },
    };
    const tries = (worth: number) => (_i: number, _s: number, occurrence: number) => (occurrence === 0 ? worth : 0.1);
    const relocations: readonly Indices[] = [0, 1, 2].map((count) => [0, STEP_NUMBER.relocate, count, 0]);
    expect(ofStep('relocate', drawn(over, 'stepSuccess', tries(0.9)))).toEqual(relocations);
    expect(ofStep('relocate', drawn(over, 'stepTime', undefined, { stepSuccess: tries(0.9) }))).toEqual(relocations);
    expect(drawn(over, 'mishandling')).toEqual([0, 1].map((count) => [0, STEP_NUMBER.exchange, count, 0]));
    const loss = { plan: { samples: 2 }, workflows: { hop: { prepareAt: 'bench', specimenLoss: 0.01 } } };
    expect(drawn(hop(loss), 'specimenLoss')).toEqual([
      [0, STEP_NUMBER.approach, 0, 0],
      [0, STEP_NUMBER.changeSample, 0, 0],
      [0, STEP_NUMBER.approach, 1, 0],
    ]);
  });

  it('keeps its worth where a strategy has other values of its own: only what it is held against changes', () => {
    const model = (probability: number) => ({
      plan: { passes: [pass('a', 10), pass('b', 10)] },
      rules: { after: '1 image' },
      workflows: { swap: { mishandling: { probability } } },
    });
    const tips = (probability: number, u: number) =>
      play(model(probability), { mishandling: (_i, _s, c) => (c === 0 ? u : 0.99) }).outcome.tips;
    expect([tips(0.1, 0.2), tips(0.3, 0.2)]).toEqual([2, 3]);
    expect(drawn(model(0.1), 'mishandling')).toEqual(drawn(model(0.3), 'mishandling'));
  });
});
