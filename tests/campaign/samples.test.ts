import { describe, expect, it } from 'vitest';
import { STEP_NUMBER } from '../../src/campaign/steps.js';
import { expandPlan } from '../../src/scenario/plan.js';
import { type Raw, runMany } from '../support/run.js';
import { evenKind, HOPPING, laidOver, pass, plainModel, sceneModel } from '../support/scene.js';
import { afterScan, play } from '../support/stage.js';
import { nonEmpty } from '../support/non-empty.js';

const TWO = { plan: { samples: 2, regions: 2 } };
const scans = (names: readonly string[]) => names.filter((name) => name.startsWith('scan')).join(' ');
const hop = (over: Raw, script = {}) => play(laidOver(laidOver(HOPPING, TWO), over), script);
/** Changes of sample (from 0) that lose the specimen. */
const losing = (step: keyof typeof STEP_NUMBER, ...occurrences: readonly number[]) => ({
  specimenLoss: (_instrument: number, number: number, occurrence: number) =>
    number === STEP_NUMBER[step] && occurrences.includes(occurrence) ? 0.001 : 0.9,
});
const LOSS = { workflows: { hop: { specimenLoss: 0.01 } } };

describe('a plan of several samples', () => {
  const planned = (plan: Raw, instruments = 1) =>
    expandPlan(sceneModel({ plan, instruments }).settings).map(({ sample, region, instrument }) => [
      sample,
      region,
      instrument,
    ]);

  it('takes one sample after the other, each with the regions that it has', () => {
    const samples = [{ name: 'A', regions: 1 }, { name: 'B' }];
    expect(planned({ samples, regions: 2 })).toEqual([
      [0, 0, 0],
      [1, 1, 0],
      [1, 2, 0],
    ]);
  });

  it('begins the order of kinds anew in each sample', () => {
    const over = { order: 'tip-first', samples: 2, regions: 2, passes: [pass('a', 1), pass('b', 1, { tip: 'soft' })] };
    const model = sceneModel({ plan: over, tips: { soft: { radius: { nominal: '9 nm' } } } });
    expect(expandPlan(model.settings).map(({ region, kind }) => `${region} ${kind}`)).toEqual([
      '0 0',
      '1 0',
      '0 1',
      '1 1',
      '2 0',
      '3 0',
      '2 1',
      '3 1',
    ]);
  });

  it('deals out samples in turn, or, where there are fewer of them than instruments, their regions', () => {
    expect(planned({ samples: 3, regions: 1 }, 2).map(([, , instrument]) => instrument)).toEqual([0, 1, 0]);
    expect(planned({ samples: 2, regions: 3 }, 3).map(([, , instrument]) => instrument)).toEqual([0, 1, 2, 0, 1, 2]);
  });
});

describe('a change of sample', () => {
  it('is retract, change, locate, approach and settle, with the tip in place', () => {
    const { lines, outcome } = play(TWO);
    expect(lines.slice(lines.indexOf('Mon 00:46 retract'))).toEqual([
      'Mon 00:46 retract',
      'Mon 00:47 changeSample',
      'Mon 00:53 locate',
      'Mon 00:57 approach',
      'Mon 00:58 settle',
      'Mon 01:00 scan 3',
      'Mon 01:10 review',
      'Mon 01:10 retract',
      'Mon 01:11 locate',
      'Mon 01:15 approach',
      'Mon 01:16 scan 4',
      'Mon 01:26 review',
      'Mon 01:26 * went',
    ]);
    expect(outcome).toMatchObject({ tips: 1, good: 4 });
  });

  it('counts as preparing and setting up, but for its settling', () => {
    const { minutes } = play(TWO);
    const change = minutes.steps.filter(
      ({ step, start }) => start >= 46 * 60e6 && step !== 'review' && start < 60 * 60e6,
    );
    expect(change.map(({ step, activity }) => `${step}: ${activity}`)).toEqual([
      'retract: preparing and setting up',
      'changeSample: preparing and setting up',
      'locate: preparing and setting up',
      'approach: preparing and setting up',
      'settle: warming up and settling',
    ]);
  });

  it('has in hop the light spot aligned and the resonance looked at before the locate', () => {
    expect(afterScan(hop({ workflows: { hop: { prepareAt: 'bench' } } }).names, 2).slice(1, 9)).toEqual([
      'retract',
      'changeSample',
      'align',
      'resonance',
      'locate',
      'approach',
      'settle',
      'scan 3',
    ]);
  });

  it('has the next specimen prepared before it, where specimens are prepared at the instrument, and only the first time', () => {
    const { names, outcome } = hop({});
    expect(afterScan(names, 2).slice(1, 4)).toEqual(['retract', 'prepare', 'changeSample']);
    expect(outcome).toMatchObject({ specimens: 2, benchTime: 0 });
  });

  it('comes once and right before the locate, where it falls together with a change of tip', () => {
    const over = { rules: { after: '2 images' } };
    expect(afterScan(play(laidOver(TWO, over)).names, 2).slice(1, 10)).toEqual([
      'retract',
      'exchange',
      'align',
      'resonance',
      'changeSample',
      'locate',
      'approach',
      'settle',
      'scan 3',
    ]);
    expect(
      afterScan(hop(laidOver(over, { workflows: { hop: { prepareAt: 'bench' } } })).names, 2).slice(1, 11),
    ).toEqual([
      'retract',
      'offset',
      'changeSample',
      'align',
      'resonance',
      'locate',
      'approach',
      'resonance',
      'settle',
      'scan 3',
    ]);
  });

  it('is pending over an idle closing like one of tip: warm-up, then what is pending without its retract', () => {
    const { lines } = play(laidOver(TWO, { bookings: { hours: 'Mo-Fr 09:00-09:46' } }));
    expect(lines.slice(lines.indexOf('Mon 09:46 waiting for a booking'))).toEqual(
      expect.arrayContaining(['Tue 09:00 warmUp', 'Tue 09:05 changeSample', 'Tue 09:11 locate']),
    );
    expect(lines).not.toContain('Tue 09:05 retract');
  });
});

describe('images to be taken again', () => {
  const failing = (every: number) => ({
    plan: { samples: 2, regions: 2 },
    noticing: { check: { every, time: '1 min', sensitivity: 1, falseAlarm: 0.5 } },
  });
  /** The first check of the first tip fails. */
  const once = {
    checkJudgement: (_i: number, _k: number, tip: number, count: number) => (tip + count === 0 ? 0.1 : 0.9),
  };

  it('of a sample are taken before that sample is taken off', () => {
    expect(scans(play(failing(2), once).names)).toBe('scan 1 scan 2 scan 2 scan 1 scan 3 scan 4');
  });

  it('of earlier samples are taken after the last one, whose own come first', () => {
    expect(scans(play(failing(4), once).names)).toBe('scan 1 scan 2 scan 3 scan 4 scan 4 scan 3 scan 1 scan 2');
  });
});

describe('a specimen that a change of sample loses', () => {
  it('is replaced by a spare, and the change is made again', () => {
    const { names, outcome } = hop(LOSS, losing('changeSample', 0));
    expect(afterScan(names, 2).slice(1, 8)).toEqual([
      'retract',
      'prepare',
      'changeSample',
      'prepare',
      'changeSample',
      'align',
      'resonance',
    ]);
    expect(outcome).toMatchObject({ good: 4, specimens: 3, isFinished: true });
  });

  it('leaves what is due of its sample missing where no spare is left, and the next sample comes on', () => {
    const three = laidOver(LOSS, { plan: { samples: 3 }, stock: { specimens: 3 } });
    const { names, outcome } = hop(three, losing('approach', 3));
    expect(scans(names)).toBe('scan 1 scan 2 scan 3 scan 5 scan 6');
    expect(outcome).toMatchObject({ good: 5, missing: 1, isFinished: false, specimens: 3 });
  });

  it('takes no specimen that another sample still needs', () => {
    const { outcome } = hop(laidOver(LOSS, { stock: { specimens: 2 } }), losing('approach', 0));
    expect(outcome).toMatchObject({ good: 2, missing: 2, specimens: 2, isFinished: false });
  });
});

describe('9. several samples of one region each', () => {
  const [N, p] = [24, 0.1];
  const STEPS = { setUp: 600, warmUp: 300, locate: 120, retract: 10, approach: 40, resonance: 30, settle: 70 };
  const model = (samples: number, more: Parameters<typeof plainModel>[0]) =>
    plainModel({
      ...more,
      samples,
      passes: Array.from({ length: N / samples }, () => ({})),
      tips: { tip: evenKind([{ cause: 'breakage', per: 'image', life: { distribution: 'probability', perUnit: p } }]) },
    });

  it.each([2, 3, 4])('takes the time of one and a change, a locate and an approach for each further one: %i', (m) => {
    const steps = { ...STEPS, exchange: 200, align: 50, relocate: 90, changeSample: 500 };
    const [one, several] = [1, m].map((samples) =>
      runMany(model(samples, { regions: 1, steps }), 'known answer 9', 50),
    );
    const change = STEPS.retract + steps.changeSample + STEPS.locate + STEPS.approach + STEPS.settle;
    for (const [i, { totalTime, takes }] of nonEmpty(several.entries())) {
      expect(totalTime).toBe(one[i].totalTime + (m - 1) * change);
      expect(takes).toBe(one[i].takes);
    }
  });

  it('has in hop the instrument time of no preparation, and m·P/s more of the operator on average', () => {
    const [m, prepare, success] = [3, 1800, 0.5];
    const steps = { ...STEPS, offset: 7, register: 25, changeSample: 400, align: 60 };
    const hopping = (seconds: number) =>
      runMany(
        model(m, { workflow: 'hop', regions: 1, steps: { ...steps, prepare: seconds }, success: { prepare: success } }),
        'known answer 9',
        2000,
      );
    const [prepared, unprepared] = [hopping(prepare), hopping(0)];
    const extra = prepared.map(({ operatorTime }, i) => operatorTime - unprepared[i].operatorTime);
    prepared.forEach(({ instrumentTime, benchTime }, i) => {
      expect(instrumentTime).toBe(unprepared[i].instrumentTime);
      expect(benchTime).toBe(extra[i]);
    });
    // Each of m specimens takes a geometric number of tries: standard deviation P·√(m(1-s))/s = 4409 s, standard error 98.6 s;
    // 5 standard errors are missed by chance less than once in a million.
    const mean = extra.reduce((sum, time) => sum + time, 0) / extra.length;
    expect(Math.abs(mean - (m * prepare) / success)).toBeLessThan(5 * 98.6);
  });
});
