import { describe, expect, it } from 'vitest';
import type { Outcome } from '../../src/campaign/outcome.js';
import { expectMean } from '../support/agreement.js';
import { runMany } from '../support/run.js';
import { plainModel } from '../support/scene.js';
import { nonEmpty } from '../support/non-empty.js';

/*
 * The known answers of the model, cases 1 to 5, derived by hand beside each. Fixed seeds, at least 300 independent replications;
 * 21 comparisons of means (tests/support/agreement.ts): fails by chance less than once in a million seeds.
 */

const SCAN = 60;
const breaksBy = (perUnit: number) => ({
  cause: 'breakage',
  per: 'image',
  life: { distribution: 'probability', perUnit },
});

const of = (outcomes: readonly Outcome[], measure: (outcome: Outcome) => number) => outcomes.map(measure);

describe('1. constant breakage, replaced when flagged', () => {
  const [p, images, replications] = [0.2, 40, 600];
  const swap = plainModel({
    regions: 1,
    passes: Array.from({ length: images }, () => ({})),
    hazards: [breaksBy(p)],
    steps: {
      setUp: 600,
      warmUp: 300,
      locate: 120,
      retract: 10,
      exchange: 200,
      align: 50,
      resonance: 30,
      approach: 40,
      relocate: 90,
      settle: 70,
    },
  });
  const hop = plainModel({
    workflow: 'hop',
    regions: 1,
    passes: Array.from({ length: images }, () => ({})),
    hazards: [breaksBy(p)],
    steps: {
      prepare: 2700,
      setUp: 600,
      warmUp: 300,
      locate: 120,
      retract: 8,
      offset: 7,
      approach: 30,
      resonance: 11,
      settle: 45,
      register: 25,
      coarseMove: 1e5,
      chipExchange: 1e5,
    },
    more: { prepareAt: 'instrument' },
  });
  const cases = [
    { name: 'swap', model: swap, start: 600 + 300 + 120 + 40, change: 10 + 200 + 50 + 30 + 40 + 90 + 70 },
    { name: 'hop', model: hop, start: 2700 + 600 + 300 + 120 + 30, change: 8 + 7 + 30 + 11 + 45 + 25 },
  ];
  it.each(cases)(
    'gives N/(1-p) takes and 1 + Np/(1-p) tips, and the time of both: $name',
    ({ model, start, change }) => {
      const outcomes = runMany(model, 'known answer 1', replications);
      const takes = images / (1 - p);
      const failures = takes - images;
      // The takes of an image are geometric: their number has standard deviation √(Np)/(1-p), 3.5, and standard error 0.14.
      expectMean(
        of(outcomes, (o) => o.takes),
        takes,
        0.16,
        'takes',
      );
      expectMean(
        of(outcomes, (o) => o.tips),
        1 + failures,
        0.16,
        'tips',
      );
      const time = start + SCAN * takes + change * failures;
      expectMean(
        of(outcomes, (o) => o.totalTime),
        time,
        time / 100,
        'time',
      );
      for (const outcome of nonEmpty(outcomes)) {
        // Beyond the means: in each single replication the parts must follow from the takes.
        expect(outcome.tips).toBe(1 + outcome.takes - images);
        expect(outcome.totalTime).toBe(start + SCAN * outcome.takes + change * (outcome.takes - images));
        expect(outcome).toMatchObject({ good: images, undetectedBad: 0, givenUp: 0, missing: 0, yield: 1 });
      }
    },
  );

  it('adds a review time of its own to each take', () => {
    const reviewed = plainModel({
      regions: 1,
      passes: Array.from({ length: images }, () => ({})),
      hazards: [breaksBy(p)],
      noticing: { review: { by: 'automatic', time: '7 s', sensitivity: 1, falseAlarm: 0 } },
    });
    for (const outcome of nonEmpty(runMany(reviewed, 'known answer 1', 20)))
      expect(outcome.totalTime).toBe((SCAN + 7) * outcome.takes);
  });
});

describe('2. preparation of the specimen', () => {
  it.each(['bench', 'instrument'])('takes 1/s tries on average, at the %s', (prepareAt) => {
    const success = 0.4;
    const model = plainModel({
      workflow: 'hop',
      regions: 1,
      steps: { prepare: 1800 },
      success: { prepare: success },
      more: { prepareAt },
    });
    const tries = of(runMany(model, 'known answer 2', 2000), (o) => o.operatorTime / 1800);
    // Geometric: standard deviation √(1-s)/s = 1.94, standard error 0.043.
    expectMean(tries, 1 / success, 0.05, 'tries');
    expect(nonEmpty(tries).every((n) => Number.isInteger(n) && n >= 1)).toBe(true);
  });
});

describe('3. replacement after n images with a Weibull life', () => {
  const [shape, scale, n, change] = [2.2, 8, 6, 240];
  const survival = (x: number) => Math.exp(-((x / scale) ** shape));
  const good = Array.from({ length: n }, (_, j) => survival(j + 1)).reduce((sum, s) => sum + s, 0);
  const begun = Array.from({ length: n }, (_, j) => survival(j)).reduce((sum, s) => sum + s, 0);
  const tipsAtHand = 40;
  // The plan is longer than 40 tips can last, so the experiment ends when the last of them goes: each replication is exactly 40
  // complete cycles, and the sum over cycles of (time - answer × good images) has mean exactly 0, with no end effect.
  const life = { cause: 'breakage', per: 'image', life: { distribution: 'weibull', shape, scale } };
  const run = (noticing: Record<string, unknown>) =>
    runMany(
      plainModel({
        regions: n * tipsAtHand + 1,
        hazards: [life],
        steps: { exchange: change },
        rules: { after: `${n} images` },
        stock: { tips: { tip: tipsAtHand } },
        noticing,
      }),
      'known answer 3',
      300,
    );
  const excess = (outcomes: readonly Outcome[], answer: number) =>
    of(outcomes, (o) => (o.totalTime + change - answer * o.good) / tipsAtHand);

  it('costs (TΣ_{j<n} S(j) + c)/Σ_{j=1..n} S(j) per good image when noticed at its end', () => {
    const outcomes = run({});
    const answer = (SCAN * begun + change) / good;
    expectMean(excess(outcomes, answer), 0, answer / 50, 'excess of time per tip');
    expectMean(
      of(outcomes, (o) => o.good / tipsAtHand),
      good,
      good / 100,
      'good images per tip',
    );
    expectMean(
      of(outcomes, (o) => o.takes / tipsAtHand),
      begun,
      begun / 100,
      'takes per tip',
    );
  });

  it('costs (T∫S + c)/Σ_{j=1..n} S(j) with a perfect, immediate watch', () => {
    const outcomes = run({ watch: { by: 'automatic', sensitivity: 1, delay: '0 s' } });
    let area = 0; // Simpson's rule; its error here is far below 1e-9
    const steps = 6000;
    for (let i = 0; i <= steps; i += 1)
      area += survival((i * n) / steps) * (i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2) * (n / steps / 3);
    const answer = (SCAN * area + change) / good;
    expectMean(excess(outcomes, answer), 0, answer / 50, 'excess of time per tip');
    // Seen at once the tip wastes less than when seen at the image's end, so that the two answers are clearly different.
    expect(answer).toBeLessThan(((SCAN * begun + change) / good) * 0.99);
  });
});

describe('4. break-even of hopping', () => {
  const [p, success, prepare] = [0.1, 0.8, 2400];
  const [swapChange, hopChange] = [600, 60];
  const breakEven = ((prepare / success) * (1 - p)) / (p * (swapChange - hopChange));
  const difference = (images: number) => {
    const same = { regions: 1, passes: Array.from({ length: images }, () => ({})), hazards: [breaksBy(p)] };
    const start = { setUp: 600, warmUp: 300, locate: 100, approach: 20 };
    const swap = plainModel({ ...same, steps: { ...start, exchange: 400, relocate: 180 } });
    const hop = plainModel({
      ...same,
      workflow: 'hop',
      steps: { ...start, prepare, offset: 10, register: 30 },
      success: { prepare: success },
      more: { prepareAt: 'instrument' },
    });
    const [bySwap, byHop] = [swap, hop].map((model) => runMany(model, 'known answer 4', 600));
    return bySwap.map((one, i) => one.totalTime - byHop[i].totalTime);
  };
  it('lies at N = (P/s)(1-p)/(p(c_swap - c_hop)), where the total times are equal on average', () => {
    expect(breakEven).toBeCloseTo(50, 9);
    expectMean(difference(50), 0, 110, 'difference at break-even');
  });

  it('has swapping ahead below it and hopping ahead above it, by (c_swap - c_hop)·p/(1-p) an image', () => {
    const perImage = ((swapChange - hopChange) * p) / (1 - p);
    expectMean(difference(25), -25 * perImage, 110, 'difference below break-even');
    expectMean(difference(100), 50 * perImage, 130, 'difference above break-even');
  });
});

describe('5. rushing', () => {
  const [h, alpha, images] = [0.125, 2, 40];
  const optimum = (alpha * h) ** (-1 / alpha);
  const run = (pace: number) =>
    of(
      runMany(
        plainModel({
          regions: images,
          hazards: [
            {
              cause: 'breakage',
              per: 'image',
              life: { distribution: 'exponential', mean: 1 / h },
              acceleration: { pace: alpha },
            },
          ],
          pace: { scan: pace },
        }),
        'known answer 5',
        500,
      ),
      (o) => o.totalTime / images,
    );
  const formula = (pace: number) => (SCAN / pace) * Math.exp(h * pace ** alpha);

  it('costs T/pace·exp(h·pace^α) per good image', () => {
    for (const pace of [1, optimum, 3]) expectMean(run(pace), formula(pace), formula(pace) / 100, `pace ${pace}`);
  });

  it('is quickest at pace* = (αh)^(-1/α)', () => {
    expect(optimum).toBe(2);
    const [slower, best, faster] = [optimum / 1.25, optimum, optimum * 1.25].map(run);
    // On common random numbers the paired differences are small in variance; both neighbours must be slower beyond doubt.
    for (const [pace, other] of [
      [optimum / 1.25, slower],
      [optimum * 1.25, faster],
    ] as const) {
      const extra = other.map((time, i) => time - best[i]);
      expectMean(extra, formula(pace) - formula(optimum), 0.4, `extra time at pace ${pace}`);
    }
  });
});
