import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { compileLife } from '../../src/chance/life.js';
import type { TipRecord } from '../../src/campaign/ledger.js';
import { expectMean } from '../support/agreement.js';
import { average } from '../support/chance.js';
import { departure, publishedCase } from '../support/check-values.js';
import { tipLives } from '../support/tip-lives.js';
import { nonEmpty } from '../support/non-empty.js';

/*
 * Age replacement: Barlow & Hunter, Operations Research 8, 90 (1960); Barlow & Proschan, Mathematical Theory of Reliability
 * (1965), ch. 4; values in check-values.json by SciPy 1.10.1 and mpmath. With a perfect, immediate watch a tip's use is
 * min(life, T) exactly, in whole scans up to T and in the fraction of the scan in which it breaks: four scans make one T, and
 * nothing is discretised. By the renewal-reward theorem the sum over tips of (cost - C(T)·use) has mean exactly 0.
 *
 * At least 600 tips a case, and 150 that are expected to fail; fixed seeds; 45 comparisons of means
 * (tests/support/agreement.ts): fails by chance less than once in a million seeds.
 */
const SCANS = 4;
const TIPS = 20;

/**
 * Tips whose lives are counted in hours of scanning, replaced at age T (hours), by when a share `failing` of them has failed.
 * Where `isPlanned` is false they are used until they fail, in scans of T/4.
 */
function replacedAt(seed: string, hazards: readonly object[], T: number, failing: number, isPlanned = true) {
  return tipLives({
    seed,
    replications: Math.ceil(Math.max(600, 150 / failing) / TIPS),
    tipsAtHand: TIPS,
    images: isPlanned ? TIPS * SCANS + 1 : 1000,
    passes: [{ lines: 3600, lineRate: `${SCANS / T} Hz` }],
    hazards: hazards.map((life, i) => ({
      cause: ['breakage', 'fouling'][i],
      per: 'hour',
      life,
      ...(i === 0 ? {} : { quality: 0 }),
    })),
    ...(isPlanned ? { rules: { after: `${T} h` } } : {}),
    noticing: { watch: { by: 'automatic', sensitivity: 1, delay: '0 s' } },
  });
}

const hasFailed = (tip: TipRecord) => tip.spoiled !== null;
const excess = (tips: readonly TipRecord[], rate: number, cost: (tip: TipRecord) => number) =>
  tips.map((tip) => cost(tip) - rate * tip.use.hours);

/** ∫₀ᵀ S by Simpson's rule. */
function area(survival: (x: number) => number, T: number): number {
  const steps = 20_000;
  let sum = 0;
  for (let i = 0; i <= steps; i += 1)
    sum += survival((i * T) / steps) * (i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2);
  return (sum * T) / steps / 3;
}
const weibullSurvival = (shape: number, scale: number) => (x: number) => Math.exp(-((x / scale) ** shape));
const costRate = (survival: (x: number) => number, T: number, cp: number, cf: number) =>
  (cp * survival(T) + cf * (1 - survival(T))) / area(survival, T);
const weibullHours = (shape: number, scale: number) => ({ distribution: 'weibull', shape, scale: `${scale} h` });

describe('age replacement of tips with Weibull lives', () => {
  const { inputs, expected } = publishedCase(
    'age-replacement-table',
    z.array(z.object({ shape: z.number(), scale: z.number(), cp: z.number(), cf: z.number() })),
    z.array(
      z.object({
        T_opt: z.number(),
        cost_rate_opt: z.number(),
        cost_rate_rtf: z.number(),
        prob_fail_before_T: z.number(),
        mean_cycle: z.number(),
      }),
    ),
  );

  it.each(inputs.map((input, row) => ({ ...input, row })))(
    'has the published cost rate at the optimum: shape $shape, unplanned $cf times as dear',
    ({ row, shape, scale, cp, cf }) => {
      const { T_opt, cost_rate_opt, prob_fail_before_T, mean_cycle } = expected[row];
      expect(departure(costRate(weibullSurvival(shape, scale), T_opt, cp, cf), cost_rate_opt)).toBeLessThan(1e-6);
      const tips = replacedAt(`age replacement ${row}`, [weibullHours(shape, scale)], T_opt, prob_fail_before_T);
      expectMean(
        excess(tips, cost_rate_opt, (tip) => (hasFailed(tip) ? cf : cp)),
        0,
        (cost_rate_opt * mean_cycle) / 10,
        'excess of cost',
      );
      const failed: number[] = tips.map((tip) => (hasFailed(tip) ? 1 : 0));
      expectMean(failed, prob_fail_before_T, 0.025, 'share that fails before T');
    },
  );

  it('costs more when tips are used until they break, as published', () => {
    inputs.slice(2, 5).forEach(({ shape, scale, cf }, i) => {
      const tips = replacedAt(`run to failure ${i}`, [weibullHours(shape, scale)], scale, 1, false);
      expect(nonEmpty(tips).every(hasFailed)).toBe(true);
      const { cost_rate_rtf } = expected[i + 2];
      expectMean(
        excess(tips, cost_rate_rtf, () => cf),
        0,
        cf / 20,
        'excess of cost',
      );
    });
  });
});

// ReliaWiki, optimum replacement time example, from memory; reproduced with mpmath.
it('age replacement follows the published curve of cost rates of the worked example', () => {
  const { inputs, expected } = publishedCase(
    'age-replacement-worked',
    z.object({ shape: z.number(), scale: z.number(), cp: z.number(), cf: z.number() }),
    z.object({
      T_opt: z.number(),
      cost_rate_opt: z.number(),
      curve: z.array(z.object({ T: z.number(), C: z.number() })),
    }),
  );
  const { shape, scale, cp, cf } = inputs;
  const survival = weibullSurvival(shape, scale);
  for (const { T, C } of [...expected.curve, { T: expected.T_opt, C: expected.cost_rate_opt }])
    expect(departure(costRate(survival, T, cp, cf), C), `T = ${T}`).toBeLessThan(1e-6);
  for (const { T, C } of expected.curve.filter((point) => point.T >= 250 && point.T <= 1000)) {
    const tips = replacedAt(`worked ${T}`, [weibullHours(shape, scale)], T, 1 - survival(T));
    expectMean(
      excess(tips, C, (tip) => (hasFailed(tip) ? cf : cp)),
      0,
      0.12,
      `excess of cost at T = ${T}`,
    );
  }
});

it('planned replacement never pays where the hazard is constant', () => {
  const { inputs, expected } = publishedCase(
    'age-replacement-exponential',
    z.object({ rate: z.number(), cp: z.number(), cf: z.number() }),
    z.object({ limit: z.number(), curve: z.array(z.object({ T: z.number(), C: z.number() })) }),
  );
  const { rate, cp, cf } = inputs;
  const life = { distribution: 'exponential', mean: `${1 / rate} h` };
  for (const { T, C } of nonEmpty(expected.curve)) {
    expect(departure(cf * rate + (cp * rate * Math.exp(-rate * T)) / -Math.expm1(-rate * T), C)).toBeLessThan(1e-9);
    expect(C).toBeGreaterThan(expected.limit);
  }
  for (const { T, C } of expected.curve.filter((point) => point.T <= 100)) {
    const tips = replacedAt(`constant hazard ${T}`, [life], T, -Math.expm1(-rate * T));
    expectMean(
      excess(tips, C, (tip) => (hasFailed(tip) ? cf : cp)),
      0,
      0.2,
      `excess of cost at T = ${T}`,
    );
  }
  const untilBroken = replacedAt('constant hazard', [life], 1 / rate, 1, false);
  expectMean(
    excess(untilBroken, expected.limit, () => cf),
    0,
    0.3,
    'excess of cost until broken',
  );
});

describe('age replacement with other lives', () => {
  const { expected } = publishedCase(
    'age-replacement-other-lives',
    z.array(z.object({ life: z.string() })),
    z.array(z.object({ T_opt: z.number(), C_opt: z.number(), rtf: z.number() })),
  );
  const cases = [
    { name: 'gamma, shape 3', life: { distribution: 'gamma', shape: 3, scale: 1 }, cp: 1, cf: 5, row: 0 },
    { name: 'gamma, shape 4', life: { distribution: 'gamma', shape: 4, scale: 25 }, cp: 1, cf: 10, row: 1 },
    {
      name: 'lognormal',
      life: { distribution: 'lognormal', median: 100, geometricSd: Math.exp(0.4) },
      cp: 1,
      cf: 8,
      row: 2,
    },
  ] as const;
  it.each(cases)('has the published cost rate at the optimum: $name', ({ life, cp, cf, row }) => {
    const { T_opt, C_opt } = expected[row];
    const distribution = compileLife(life);
    expect(
      departure(
        costRate((x) => Math.exp(-distribution.cumulativeHazard(x)), T_opt, cp, cf),
        C_opt,
      ),
    ).toBeLessThan(1e-6);
    const inHours =
      life.distribution === 'gamma' ? { ...life, scale: `${life.scale} h` } : { ...life, median: `${life.median} h` };
    const tips = replacedAt(`other lives ${row}`, [inHours], T_opt, -Math.expm1(-distribution.cumulativeHazard(T_opt)));
    expectMean(
      excess(tips, C_opt, (tip) => (hasFailed(tip) ? cf : cp)),
      0,
      0.15,
      'excess of cost',
    );
  });
});

it('tips scan the published share of the time when a planned exchange takes half an hour and an unplanned one four', () => {
  const { inputs, expected } = publishedCase(
    'age-replacement-availability',
    z.object({ shape: z.number(), scale: z.number(), t_planned: z.number(), t_unplanned: z.number() }),
    z.object({
      rows: z.array(z.object({ T: z.number(), avail: z.number() })),
      T_opt: z.number(),
      availability_opt: z.number(),
    }),
  );
  const { shape, scale, t_planned, t_unplanned } = inputs;
  const survival = weibullSurvival(shape, scale);
  for (const { T, avail } of [...expected.rows, { T: expected.T_opt, avail: expected.availability_opt }]) {
    const scanning = area(survival, T);
    const down = t_planned * survival(T) + t_unplanned * (1 - survival(T));
    expect(departure(scanning / (scanning + down), avail)).toBeLessThan(1e-6);
  }
  for (const { T, avail } of expected.rows.filter((row) => row.T >= 40 && row.T <= 100)) {
    const tips = replacedAt(`availability ${T}`, [weibullHours(shape, scale)], T, 1 - survival(T));
    const balance = tips.map((tip) => {
      const down = hasFailed(tip) ? t_unplanned : t_planned;
      return tip.use.hours - avail * (tip.use.hours + down);
    });
    expectMean(balance, 0, 0.12, `scanning less its share of the time at T = ${T}`);
  }
});

it('tips with two causes of failure cost what is published when each cause has its own price', () => {
  const { inputs, expected } = publishedCase(
    'competing-age-replacement',
    z.object({
      hazards: z.array(z.object({ shape: z.number(), scale: z.number(), cost: z.number() })),
      cp: z.number(),
    }),
    z.object({
      rows: z.array(
        z.object({
          T: z.number(),
          mean_cycle: z.number(),
          cause_prob_before_T: z.array(z.number()),
          cost_rate: z.number(),
        }),
      ),
    }),
  );
  const [wear, contamination] = inputs.hazards;
  for (const { T, mean_cycle, cause_prob_before_T, cost_rate } of nonEmpty(
    expected.rows.filter((row) => row.T <= 70),
  )) {
    const hazards = inputs.hazards.map(({ shape, scale }) => weibullHours(shape, scale));
    const tips = replacedAt(`two causes ${T}`, hazards, T, cause_prob_before_T[1]);
    const cost = (tip: TipRecord) =>
      tip.spoiled === null ? inputs.cp : tip.spoiled.cause === 'breakage' ? wear.cost : contamination.cost;
    expectMean(excess(tips, cost_rate, cost), 0, 0.15, `excess of cost at T = ${T}`);
    const contaminated: number[] = tips.map((tip) => (tip.spoiled?.cause === 'fouling' ? 1 : 0));
    expectMean(contaminated, cause_prob_before_T[1], 0.025, `share contaminated before T = ${T}`);
    expect(departure(average(tips.map((tip) => tip.use.hours)), mean_cycle)).toBeLessThan(0.15);
  }
});
