import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LuckTable } from '../../src/chance/luck.js';
import { runCampaign } from '../../src/campaign/campaign.js';
import type { Take } from '../../src/campaign/ledger.js';
import type { CampaignModel } from '../../src/campaign/model.js';
import type { RecordedStep } from '../../src/campaign/recorder.js';
import { SECOND } from '../../src/kernel/clock.js';
import { runMany } from '../support/run.js';
import { type Plain, plainModel } from '../support/scene.js';
import { StepLog } from '../support/step-log.js';
import { nonEmpty } from '../support/non-empty.js';

/** Handling starts 1 nm/s, always, which decays in 10 min. */
const HANDLING = { rate: '1 nm/s', geometricSd: 1, decay: '10 min' };
const drifting = (more: object = {}) => ({ drift: { handling: { ...HANDLING, ...more } } });

function stepsOf(model: CampaignModel, seed = 'drift', replication = 1): readonly RecordedStep[] {
  const log = new StepLog();
  runCampaign(model, new LuckTable(seed).replication(replication), log);
  return log.steps;
}

function takesOf(model: CampaignModel): readonly Take[] {
  return stepsOf(model).flatMap(({ take }) => (take === null ? [] : [take]));
}

/** Seconds that each doing of a step takes. */
function secondsOf(model: CampaignModel, step: string): readonly number[] {
  return stepsOf(model).flatMap((each) => (each.step === step ? [(each.end - each.start) / SECOND] : []));
}

/** Images of 4 min right after the set-up of one sample, of which 100 nm of drift are borne. */
const THREE_IN_A_ROW: Plain = {
  regions: 1,
  passes: Array.from({ length: 3 }, () => ({ lines: 240, driftTolerance: '100 nm', accept: 0 })),
  steps: { setUp: 60 },
  more: drifting(),
};

/*
 * Known answer 11, by hand: ∫ exp(−t/600 s) dt over three images of 240 s in a row is 600·(1 − e^−0.4) = 197.808 nm, and
 * e^−0.4 = 0.670320 of it each time after.
 */
describe('11. drift after one disturbance', () => {
  const takes = takesOf(plainModel(THREE_IN_A_ROW));
  const displacements = [197.807972, 132.594649, 88.880851];

  it('displaces three images in a row as worked out by hand', () => {
    displacements.forEach((displacement, place) => {
      expect(takes[place].drift.displacement).toBeCloseTo(displacement, 5);
      expect(takes[place].drift.rate).toBeCloseTo(0.670320046 ** place, 8);
    });
  });

  it('leaves of each what its pass bears', () => {
    [100 / displacements[0], 100 / displacements[1], 1].forEach((quality, place) => {
      expect(takes[place].quality).toBeCloseTo(quality, 8);
    });
  });

  it('is waited for τ·ln(v₀/rate) after an exchange: 29.957 min to 0.05 nm/s', () => {
    const replacing = { rules: { after: '1 images' }, settle: { until: '0.05 nm/s' }, more: drifting() };
    const waits = secondsOf(plainModel({ regions: 3, ...replacing }), 'settle');
    expect(waits).toHaveLength(2);
    for (const wait of nonEmpty(waits)) expect(wait / 60).toBeCloseTo(29.957322735539908, 7);
    // What passes before settling counts: here two minutes of relocating.
    const later = plainModel({ regions: 1, passes: [{}, {}], steps: { relocate: 120 }, ...replacing });
    expect(secondsOf(later, 'settle')[0] / 60).toBeCloseTo(27.957322735539908, 7);
    const hurried = plainModel({ regions: 3, pace: { wait: 2 }, ...replacing });
    expect(secondsOf(hurried, 'settle')[0] / 60).toBeCloseTo(10 * Math.log(10), 7);
  });

  it('of two kinds is waited for until both together have come down', () => {
    // e^−t/600 + 0.2·e^−(t + 10)/180 = 0.1 for t since the exchange of the chip less 10 s of offset before: by bisection.
    const model = plainModel({
      workflow: 'hop',
      regions: 2,
      rules: { after: '1 images' },
      steps: { offset: 10 },
      settle: { until: '0.1 nm/s' },
      more: {
        drift: { handling: HANDLING, move: { rate: '0.2 nm/s', geometricSd: 1, decay: '3 min' } },
        chip: { sites: { tip: 1 } },
        specimenLoss: 0,
      },
    });
    let [low, high] = [0, 3600];
    for (let count = 0; count < 60; count += 1) {
      const middle = (low + high) / 2;
      if (Math.exp(-(middle + 10) / 600) + 0.2 * Math.exp(-middle / 180) > 0.1) low = middle;
      else high = middle;
    }
    expect(secondsOf(model, 'settle')[0]).toBeCloseTo(high, 5);
  });
});

/*
 * Known answer 12, by hand: after each change of sample one image of T = 300 s that bears 50 nm, accepted at 0.8, with v₀ = 1 nm/s and
 * τ = 600 s. It is good from w* = 600·ln(0.8·600·(1 − e^−0.5)/50) = 797.4 s on; one that is begun too soon is taken again, T later.
 */
describe('12. the best wait', () => {
  const [scan, decay, accept, tolerance] = [300, 600, 0.8, 50];
  const enough = decay * Math.log((accept * decay * (1 - Math.exp(-scan / decay))) / tolerance);
  const SAMPLES = 5;
  const waiting = (wait: number) =>
    plainModel({
      regions: 1,
      samples: SAMPLES,
      passes: [{ lines: scan, driftTolerance: `${tolerance} nm`, accept }],
      steps: { settle: wait },
      more: drifting(),
    });
  const scansAfter = (wait: number) => 1 + Math.max(0, Math.ceil((enough - wait) / scan));

  it('has each image taken until it has settled, the tip untouched', () => {
    for (const wait of [0, 100, 400, 500, 700, 797, 798, 1200]) {
      const [outcome] = runMany(waiting(wait), 'known answer 12', 1);
      const scans = scansAfter(0) + (SAMPLES - 1) * scansAfter(wait);
      expect(outcome.takes, `${wait} s`).toBe(scans);
      expect(outcome.totalTime).toBeCloseTo((SAMPLES - 1) * wait + scan * scans, 6);
      expect(outcome.tips).toBe(1);
    }
  });

  it('is one after which some scan begins just when all has settled enough, be it the first or a retake', () => {
    expect(enough).toBeCloseTo(797.4, 1);
    const waits = [0, 200, 400, 498, 600, 700, 797, 798, 900, 1000];
    const times = waits.map((wait) => runMany(waiting(wait), 'known answer 12', 1)[0].totalTime);
    // Two scans after 498 s, or one after 798 s: reviews take no time, so that waiting and scanning in vain cost alike.
    expect(waits[times.indexOf(Math.min(...times))]).toBe(498);
    expect(times[waits.indexOf(798)]).toBe(times[waits.indexOf(498)]);
  });
});

describe('drift', () => {
  it('of no rate is no drift, to the byte', () => {
    const still: Plain = { ...THREE_IN_A_ROW, more: drifting({ rate: '0 nm/s' }) };
    const none: Plain = { ...THREE_IN_A_ROW, more: {} };
    const [one, other] = [still, none].map((plain) => runMany(plainModel(plain), 'no drift', 1)[0]);
    const { badScans, ...outcome } = one;
    expect(badScans).toEqual(badScans?.map(() => ({ byDrift: 0, otherwise: 0 })));
    expect(JSON.stringify(outcome)).toBe(JSON.stringify(other));
  });

  it('costs no quality where a pass bears any', () => {
    const free: Plain = { ...THREE_IN_A_ROW, passes: [{ lines: 240 }, { lines: 240 }] };
    for (const { quality, drift } of nonEmpty(takesOf(plainModel(free)))) {
      expect(quality).toBe(1);
      expect(drift.displacement).toBeGreaterThan(80);
    }
  });

  it('gives hop and swap equal qualities where it and all times are equal', () => {
    const [swap, hop] = (['swap', 'hop'] as const).map((workflow) =>
      takesOf(
        plainModel({
          ...{ workflow, regions: 4, steps: { setUp: 60, locate: 90, retract: 5, approach: 30 } },
          passes: [{ lines: 240, driftTolerance: '20 nm', accept: 0 }],
          more: { drift: { handling: { rate: '1 nm/s', decay: '10 min' }, steady: '0.02 nm/s' } },
        }),
      ).map(({ quality }) => quality),
    );
    expect(swap).toEqual(hop);
    expect(new Set(swap).size).toBe(4);
  });

  it('has first rates by instrument, kind and occurrence, whatever else happens', () => {
    const rates = (settle: number) =>
      takesOf(
        plainModel({
          ...{ regions: 6, rules: { after: '1 images' }, steps: { settle } },
          more: { drift: { handling: { rate: '1 nm/s', geometricSd: 2, decay: '10 min' } } },
        }),
      ).map(({ drift }, place) => drift.rate * Math.exp(place === 0 ? 0 : settle / 600));
    const [soon, late] = [rates(0), rates(300)];
    expect(new Set(soon).size).toBe(6);
    soon.forEach((rate, place) => {
      expect(late[place]).toBeCloseTo(rate, 9);
    });
  });

  it('displaces no image more after a longer wait', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2000 }), fc.integer({ min: 0, max: 2000 }), (wait, more) => {
        const [shorter, longer] = [wait, wait + more].map((settle) =>
          takesOf(plainModel({ regions: 5, rules: { after: '2 images' }, steps: { settle }, more: drifting() })),
        );
        shorter.forEach(({ drift }, place) => {
          expect(longer[place].drift.displacement).toBeLessThanOrEqual(drift.displacement * (1 + 1e-12));
        });
      }),
      { seed: 12, numRuns: 25 },
    );
  });

  it('is waited for longer before a critical pass, if the rules say so', () => {
    const model = plainModel({
      regions: 1,
      passes: [{}, { critical: true }],
      rules: { settleCritical: { until: '0.01 nm/s' } },
      settle: { until: '0.5 nm/s' },
      more: drifting(),
    });
    expect(secondsOf(model, 'settle').map((wait) => wait / 600)).toEqual([expect.closeTo(Math.log(100), 7)]);
  });
});

/*
 * At equal pace (here 2), with no other hazard and times that are fixed, more haste in κ, η or γ only ever adds tries: each step's tries
 * are drawn in one row, of which so many must succeed; tips' lives are drawn by number, and each lasts no more approaches.
 */
describe('hurried hands', () => {
  const hurried = (more: NonNullable<Plain['more']>, hazards: NonNullable<Plain['hazards']> = []) =>
    plainModel({
      ...{ regions: 12, pace: { hands: 2 }, rules: { after: '1 images' }, hazards, more },
      steps: { exchange: 100, relocate: 50, approach: 20, retract: 5, settle: 30, locate: 40 },
      success: { relocate: 0.8 },
      passes: [{}, {}],
    });
  const approachHazard = (hands: number) => ({
    ...{ cause: 'breakage', per: 'approach', life: { distribution: 'exponential', mean: 12 } },
    acceleration: { hands },
  });
  const haste: readonly (readonly [string, (exponent: number) => CampaignModel])[] = [
    ['κ', (exponent) => hurried({ haste: { successExponent: exponent } })],
    ['η', (exponent) => hurried({}, [approachHazard(exponent)])],
    ['γ', (exponent) => hurried({ mishandling: { probability: 0.1, paceExponent: exponent } })],
  ];
  it.each(haste)('never save time by a higher %s', (_, modelWith) => {
    let slower = 0;
    const models = [0, 1, 2, 3].map(modelWith);
    const table = new LuckTable('haste');
    for (let replication = 0; replication < 40; replication += 1) {
      const times = models.map((model) => runCampaign(model, table.replication(replication)).totalTime);
      times.slice(1).forEach((time, place) => {
        expect(time).toBeGreaterThanOrEqual(times[place]);
        if (time > times[place]) slower += 1;
      });
    }
    expect(slower).toBeGreaterThan(20);
  });

  it('fail at most 95 times in 100, or as often as at the usual pace where that is more', () => {
    const success = (usual: number, hands: number) =>
      plainModel({
        ...{ regions: 1, pace: { hands }, success: { relocate: usual }, more: { haste: { successExponent: 3 } } },
      }).steps.relocate.success;
    expect(success(0.9, 2)).toBeCloseTo(1 - 0.1 * 8, 12);
    expect(success(0.9, 5)).toBeCloseTo(0.05, 12);
    expect(success(0.02, 5)).toBeCloseTo(0.02, 12);
    expect(success(0.9, 0.5)).toBeCloseTo(1 - 0.1 / 8, 12);
    expect(success(0.9, 1)).toBe(0.9);
  });
});
