import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { compileLife, type LifeDistribution } from '../../src/chance/life.js';
import type { TuneResult } from '../../src/studies/tune/results.js';
import { departure, publishedCase } from '../support/check-values.js';
import { plainText } from '../support/scene.js';
import { tuned } from '../support/tuned.js';
import { nonEmpty } from '../support/non-empty.js';

/*
 * `tune` against age replacement: R. Barlow and L. Hunter, Operations Research 8, 90 (1960); values in check-values.json by SciPy
 * and mpmath. A tip is replaced after n images at cost c_p, or when it fails before that at cost c_f; its life is counted in
 * images, m to the unit of the published life, so that n images are the age T = n/m.
 *
 * How costs become time: an exchange takes c_p, the set-up with the first tip as well; a tip fails by fouling that nothing clears,
 * is seen at once by a perfect watch, and is cleaned in vain and tried by another scan for c_f - c_p before it goes. The plan is
 * longer than the tips at hand last: each campaign is so many whole cycles, with no end effect. So the expected time per good
 * image is exactly
 *   [c_p + (c_f - c_p) F(n) + t ∫₀ⁿ S] / Σ_{j=1..n} S(j),
 * with t the time of a scan, which is a second against thousands for an exchange, but in the last case. The sum is Barlow and
 * Hunter's integral by images. To that chain the winner and all means are held; the winner also to the published optimum.
 */
const TIPS = 3;
const ZONE = 0.1;
/*
 * Kim and Nelson promise a winner within the zone in all but one of 10 000 seeds for each case, where the others lie just
 * outside. Here they lie so much further out that the chance is less than one in a million: it falls with the power 2g - 1 of the
 * gap g in zones.
 */
const CONFIDENCE = 0.9999;

interface Ageing {
  readonly distribution: LifeDistribution;
  readonly life: object;
  readonly cp: number;
  readonly cf: number;
  /** Settings of `after`, in images. */
  readonly settings: readonly (number | null)[];
  readonly seed: string;
  /** Seconds of one unit of cost, and of a scan. */
  readonly unit?: number;
  readonly scan?: number;
  readonly zone?: number;
  /** Images enough for all tips, where none is replaced early. */
  readonly most?: number;
}

function survivalOf(distribution: LifeDistribution): (x: number) => number {
  return (x) => Math.exp(-distribution.cumulativeHazard(x));
}

/** ∫₀ᵀ of what survives, by the midpoint rule. */
const area = (survives: (x: number) => number, T: number) => {
  const steps = 4000;
  let sum = 0;
  for (let i = 0; i < steps; i += 1) sum += survives(((i + 0.5) * T) / steps);
  return (sum * T) / steps;
};

/** Exact seconds per good image. */
function chain({ distribution, cp, cf, unit = 10_000, scan = 1 }: Ageing, setting: number | null): number {
  const survives = survivalOf(distribution);
  const n = setting ?? 1000;
  let good = 0;
  for (let j = 1; j <= n; j += 1) good += survives(j);
  return (unit * (cp + (cf - cp) * (1 - survives(n))) + scan * area(survives, n)) / good;
}

function tuneAge({ life, cp, cf, settings, seed, unit = 10_000, scan = 1, zone = ZONE, most }: Ageing): TuneResult {
  const longest = Math.max(...settings.map((setting) => setting ?? 0));
  const text = plainText({
    regions: most ?? TIPS * longest + 1,
    passes: [{ lineRate: `${60 / scan} Hz` }],
    hazards: [{ cause: 'fouling', per: 'image', life, quality: 0 }],
    steps: { setUp: unit * cp, exchange: unit * cp },
    noticing: { watch: { by: 'automatic', sensitivity: 1, delay: '0 s' } },
    rules: { cleanFirst: { tries: 1, time: `${unit * (cf - cp) - scan} s`, manual: false, success: 0 } },
    stock: { tips: { tip: TIPS } },
  });
  const vary = settings.map((setting) => (setting === null ? 'none' : `${setting} images`)).join(', ');
  return tuned(text, {
    vary: [`rules.after=${vary}`],
    goal: 'least-time-per-quality',
    zone,
    confidence: CONFIDENCE,
    maxCampaigns: 1e9,
    seed,
  });
}

function imagesOf(setting: TuneResult['settings'][number]): number | null {
  const [text] = setting.settings;
  return text === null ? null : Number.parseFloat(String(text));
}

/** Holds winner and means to the exact chain; returns the winner's images. */
function holdToChain(ageing: Ageing, result: TuneResult): number | null {
  expect(result.procedure.isDecided).toBe(true);
  const exact = ageing.settings.map((setting) => chain(ageing, setting));
  const { winner } = result;
  if (winner === null) throw new Error('no winner');
  expect(exact[winner] / Math.min(...exact)).toBeLessThanOrEqual(1 + (ageing.zone ?? ZONE));
  const survives = survivalOf(ageing.distribution);
  result.settings.forEach(({ goal }, place) => {
    if (goal === null) throw new Error('nothing good');
    // 600 cycles at least, and 120 expected failures: beyond 6.5 standard errors less than once in 1e8 (agreement.ts).
    if (1 - survives(ageing.settings[place] ?? Infinity) < 0.2) return;
    const error = (goal.high - goal.low) / 2 / 1.97;
    expect(Math.abs(goal.value - exact[place]) / error, `mean at ${String(ageing.settings[place])}`).toBeLessThan(6.5);
  });
  return imagesOf(result.settings[winner]);
}

interface Published {
  readonly survives: (x: number) => number;
  readonly cp: number;
  readonly cf: number;
  readonly T_opt: number;
  readonly C_opt: number;
}

/** The published cost rate at the age that was chosen is within the zone of the least one. */
function holdToPublished({ survives, cp, cf, T_opt, C_opt }: Published, age: number): void {
  const rate = (T: number) => (cp + (cf - cp) * (1 - survives(T))) / area(survives, T);
  expect(departure(rate(T_opt), C_opt)).toBeLessThan(1e-6);
  expect(rate(age) / C_opt).toBeLessThanOrEqual(1 + ZONE);
}

describe('tune finds the age at which replacement costs least, to the indifference zone', () => {
  const { inputs, expected } = publishedCase(
    'age-replacement-table',
    z.array(z.object({ shape: z.number(), scale: z.number(), cp: z.number(), cf: z.number() })),
    z.array(z.object({ T_opt: z.number(), cost_rate_opt: z.number() })),
  );

  it.each(inputs.map((input, row) => ({ ...input, row })))(
    'Weibull shape $shape, a failure $cf times as dear',
    ({ shape, scale, cp, cf, row }) => {
      const { T_opt, cost_rate_opt: C_opt } = expected[row];
      const imagesPerUnit = 8 / T_opt;
      const life = { distribution: 'weibull', shape, scale: scale * imagesPerUnit } as const;
      const ageing = { distribution: compileLife(life), life, cp, cf, settings: [3, 8, 14], seed: `row ${row}` };
      const images = holdToChain(ageing, tuneAge(ageing));
      if (images === null) throw new Error('never replaced');
      holdToPublished(
        { survives: survivalOf(compileLife({ distribution: 'weibull', shape, scale })), cp, cf, T_opt, C_opt },
        images / imagesPerUnit,
      );
    },
  );
});

// ReliaWiki, optimum replacement time example, from memory; reproduced with mpmath.
it('tune follows the published curve of the worked example down to its least', () => {
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
  const { T_opt, cost_rate_opt: C_opt } = expected;
  // 20 images are the scale: 50 h each, so that the ages of the curve are whole numbers of images.
  const hours = scale / 20;
  const life = { distribution: 'weibull', shape, scale: 20 } as const;
  const settings = expected.curve.map(({ T }) => T / hours).filter((images) => images <= 20);
  const ageing = { distribution: compileLife(life), life, cp, cf, settings, seed: 'worked' };
  const images = holdToChain(ageing, tuneAge(ageing));
  holdToPublished(
    { survives: survivalOf(compileLife({ distribution: 'weibull', shape, scale })), cp, cf, T_opt, C_opt },
    (images ?? Infinity) * hours,
  );
});

describe('tune never replaces early where the hazard does not rise', () => {
  const { inputs, expected } = publishedCase(
    'age-replacement-exponential',
    z.object({ rate: z.number(), cp: z.number(), cf: z.number(), shape_also: z.number() }),
    z.object({
      T_opt: z.literal('infinity'),
      limit: z.number(),
      curve: z.array(z.object({ T: z.number(), C: z.number() })),
    }),
  );
  const { rate, cp, cf, shape_also } = inputs;
  it.each([
    { name: 'constant', shape: 1 },
    { name: 'falling', shape: shape_also },
  ])('$name hazard', ({ shape }) => {
    // Four images are the mean of the published life: the ages 25, 50 and 100 of its curve, and run to failure.
    const life = { distribution: 'weibull', shape, scale: 4 } as const;
    const ageing = {
      distribution: compileLife(life),
      life,
      cp,
      cf,
      settings: [1, 2, 4, null],
      seed: `never early ${shape}`,
      most: 121,
    };
    const result = tuneAge(ageing);
    expect(holdToChain(ageing, result)).toBeNull();
    // None of the others may be told better, nor even not worse.
    for (const { settings, standing } of nonEmpty(result.settings))
      expect(standing).toBe(settings[0] === null ? 'winner' : 'worse');
    if (shape !== 1) return;
    for (const { T, C } of nonEmpty(expected.curve))
      expect(departure(cf * rate + (cp * rate * Math.exp(-rate * T)) / -Math.expm1(-rate * T), C)).toBeLessThan(1e-9);
    expect(cf * rate).toBe(expected.limit);
  });
});

describe('tune finds the age with other lives', () => {
  const { expected } = publishedCase(
    'age-replacement-other-lives',
    z.array(z.object({ life: z.string() })),
    z.array(z.object({ T_opt: z.number(), C_opt: z.number(), rtf: z.number() })),
  );
  const cases = [
    { name: 'gamma, shape 3', life: { distribution: 'gamma', shape: 3, scale: 1 }, cp: 1, cf: 5, row: 0 },
    { name: 'gamma, shape 4', life: { distribution: 'gamma', shape: 4, scale: 25 }, cp: 1, cf: 10, row: 1 },
    // Its hazard rises and then falls, so that run to failure is a valley of its own.
    {
      name: 'lognormal',
      life: { distribution: 'lognormal', median: 100, geometricSd: Math.exp(0.4) },
      cp: 1,
      cf: 8,
      row: 2,
    },
  ] as const;
  it.each(cases)('$name', ({ life, cp, cf, row }) => {
    const { T_opt, C_opt } = expected[row];
    const perUnit = 8 / T_opt;
    const scaled =
      life.distribution === 'gamma'
        ? { ...life, scale: life.scale * perUnit }
        : { ...life, median: life.median * perUnit };
    const ageing = {
      distribution: compileLife(scaled),
      life: scaled,
      cp,
      cf,
      settings: [3, 8, 16, null],
      seed: life.distribution,
      most: 141,
    };
    const images = holdToChain(ageing, tuneAge(ageing));
    holdToPublished({ survives: survivalOf(compileLife(life)), cp, cf, T_opt, C_opt }, (images ?? Infinity) / perUnit);
  });
});

it('tune finds the age at which tips scan the greatest share of the time, a planned exchange half an hour and another four', () => {
  const { inputs, expected } = publishedCase(
    'age-replacement-availability',
    z.object({ shape: z.number(), scale: z.number(), t_planned: z.number(), t_unplanned: z.number() }),
    z.object({ T_opt: z.number(), availability_opt: z.number() }),
  );
  const { shape, scale, t_planned, t_unplanned } = inputs;
  const perHour = 32 / expected.T_opt;
  const life = { distribution: 'weibull', shape, scale: scale * perHour } as const;
  const ageing = {
    distribution: compileLife(life),
    life,
    cp: t_planned,
    cf: t_unplanned,
    settings: [12, 32, 64],
    seed: 'availability',
    unit: 3600,
    scan: 3600 / perHour,
    zone: 0.005,
  };
  const images = holdToChain(ageing, tuneAge(ageing));
  const survives = survivalOf(compileLife({ distribution: 'weibull', shape, scale }));
  const share = (T: number) => {
    const scanning = area(survives, T);
    return scanning / (scanning + t_planned * survives(T) + t_unplanned * (1 - survives(T)));
  };
  expect(departure(share(expected.T_opt), expected.availability_opt)).toBeLessThan(1e-6);
  expect(share((images ?? Infinity) / perHour) / expected.availability_opt).toBeGreaterThanOrEqual(1 - ageing.zone);
});
