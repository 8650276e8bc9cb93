import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { expectMean } from '../support/agreement.js';
import { departure, publishedCase } from '../support/check-values.js';
import { useUpTips } from '../support/tip-lives.js';
import { nonEmpty } from '../support/non-empty.js';

/*
 * Spoiled tips that only a check every k scans finds. Simulated with tips that all live their whole life (nothing is cut
 * off by the end of the plan), 900 tips a case, fixed seeds; 40 comparisons of means
 * (tests/support/agreement.ts): fails by chance less than once in a million seeds. The time per good image v is held by a sum of mean exactly 0: the
 * clock's time with one replacement a tip, less v for each good image.
 */
const [TIPS, REPLICATIONS] = [20, 45];

interface Scheme {
  readonly k: number;
  readonly d: number;
  readonly false_alarm: number;
  readonly t_image: number;
  readonly t_check: number;
  readonly t_replace: number;
}

/** Times of the published cases are counted in minutes. */
function simulate(seed: string, life: object, scheme: Scheme) {
  const outcomes = useUpTips({
    seed,
    replications: REPLICATIONS,
    tipsAtHand: TIPS,
    images: 6000,
    passes: [{ lines: scheme.t_image * 60 }],
    hazards: [{ cause: 'breakage', per: 'image', life }],
    steps: { exchange: scheme.t_replace * 60 },
    noticing: {
      review: { by: 'nobody' },
      check: {
        every: scheme.k,
        time: `${scheme.t_check} min`,
        sensitivity: scheme.d,
        falseAlarm: scheme.false_alarm,
        repeatSuspects: false,
      },
    },
  });
  const tips = outcomes.flatMap(({ tipRecords }) => tipRecords);
  // The image in which the tip broke is bad itself, and so is every later one.
  const good = tips.map(({ spoiled, use }) => (spoiled === null ? use.images : Math.floor(spoiled.use.images)));
  return {
    images: tips.map(({ use }) => use.images),
    good,
    wasted: tips.map(({ use }, i) => use.images - good[i]),
    failed: tips.map(({ spoiled }): number => (spoiled === null ? 0 : 1)),
    excess: (v: number) => outcomes.map((o) => (o.totalTime / 60 + scheme.t_replace - v * o.good) / TIPS),
  };
}

/** Closed form of the published case: see its notes. */
function geometric({ p, k, d, false_alarm: f, t_image, t_check, t_replace }: Scheme & { readonly p: number }) {
  const a = (1 - p) ** k;
  const blocks = 1 / (1 - a * (1 - f));
  const good = (blocks * (1 - p) * (1 - a)) / p;
  const failed = blocks * (1 - a);
  const checks = blocks + (failed * (1 - d)) / d;
  const images = k * checks;
  const time = images * t_image + checks * t_check + t_replace;
  return { good, images, checks, wasted: images - good, failed, time, perGood: time / good };
}

const scheme = { d: z.number(), t_image: z.number(), t_check: z.number(), t_replace: z.number() };

// Renewal-reward theorem: Ross, Introduction to Probability Models, ch. 7; closed form and values in check-values.json.
describe('delayed detection of geometric failures', () => {
  const { inputs, expected } = publishedCase(
    'delayed-detection-geometric',
    z.array(z.object({ ...scheme, p: z.number(), k: z.number(), false_alarm: z.number() })),
    z.array(
      z.object({
        E_good_images: z.number(),
        E_images: z.number(),
        E_checks: z.number(),
        E_wasted_images: z.number(),
        prob_cycle_ends_by_failure: z.number(),
        E_cycle_time: z.number(),
        time_per_good_image: z.number(),
      }),
    ),
  );

  it.each(inputs.map((input, i) => ({ ...input, row: i })))(
    'checked every $k images with detection $d and false alarm $false_alarm ($row)',
    ({ row, ...input }) => {
      const published = expected[row];
      const formula = geometric(input);
      expect(departure(formula.perGood, published.time_per_good_image)).toBeLessThan(1e-9);
      expect(departure(formula.images, published.E_images)).toBeLessThan(1e-9);

      const lives = simulate(`delayed detection ${row}`, { distribution: 'probability', perUnit: input.p }, input);
      expectMean(lives.images, published.E_images, published.E_images / 25, 'images per tip');
      expectMean(lives.good, published.E_good_images, published.E_good_images / 25, 'good images per tip');
      if (input.k > 1)
        expectMean(lives.wasted, published.E_wasted_images, published.E_wasted_images / 20, 'wasted images');
      else expect(nonEmpty(lives.wasted).every((wasted) => wasted === 1)).toBe(true);
      if (input.false_alarm > 0)
        expectMean(lives.failed, published.prob_cycle_ends_by_failure, 0.02, 'share of tips that failed');
      else expect(nonEmpty(lives.failed).every((failed) => failed === 1)).toBe(true);
      const v = published.time_per_good_image;
      expectMean(lives.excess(v), 0, published.E_cycle_time / 60, 'excess over the time per good image');
    },
  );
});

// Minimum over k of the closed form above; values in check-values.json computed with SciPy 1.10.1 and mpmath.
describe('the best checking interval', () => {
  const { inputs, expected } = publishedCase(
    'delayed-detection-best-k',
    z.array(z.object({ ...scheme, p: z.number() })),
    z.array(z.object({ k_opt: z.number(), value: z.number(), value_k_minus: z.number(), value_k_plus: z.number() })),
  );

  it.each(inputs.map((input, i) => ({ ...input, row: i })))('is where published ($row)', ({ row, ...input }) => {
    const { k_opt: best, value, value_k_minus: below, value_k_plus: above } = expected[row];
    const perGood = (k: number) => geometric({ ...input, k, false_alarm: 0 }).perGood;
    const curve = Array.from({ length: 60 }, (_, i) => perGood(i + 1));
    expect(curve.indexOf(Math.min(...curve)) + 1).toBe(best);
    expect(departure(perGood(best), value)).toBeLessThan(1e-9);
    expect(departure(perGood(best - 1), below)).toBeLessThan(1e-9);
    expect(departure(perGood(best + 1), above)).toBeLessThan(1e-9);
    const at = { ...input, k: best, false_alarm: 0 };
    const lives = simulate(`best interval ${row}`, { distribution: 'probability', perUnit: input.p }, at);
    expectMean(lives.excess(value), 0, geometric(at).time / 60, 'excess over the time per good image');
  });
});

// P(N > n) = exp(-(n/η)^β) for the index N of the failing image; values in check-values.json by SciPy and mpmath.
describe('delayed detection with wear', () => {
  const { inputs, expected } = publishedCase(
    'delayed-detection-weibull',
    z.array(z.object({ shape: z.number(), scale: z.number(), k: z.number(), d: z.number() })),
    z.array(z.object({ E_good: z.number(), E_checks: z.number(), E_images: z.number(), E_wasted: z.number() })),
  );

  it.each(inputs.map((input, i) => ({ ...input, row: i })))(
    'checked every $k images, shape $shape',
    ({ row, shape, scale, k, d }) => {
      const { E_good, E_checks, E_images, E_wasted } = expected[row];
      const survival = (n: number) => Math.exp(-((n / scale) ** shape));
      const sum = (step: number, from: number) =>
        Array.from({ length: 2000 }, (_, n) => survival((n + from) * step)).reduce((total, s) => total + s, 0);
      expect(departure(sum(1, 1), E_good)).toBeLessThan(1e-9);
      expect(departure(sum(k, 0) + (1 - d) / d, E_checks)).toBeLessThan(1e-9);

      const times = { k, d, false_alarm: 0, t_image: 2, t_check: 0.5, t_replace: 30 };
      const lives = simulate(`detection with wear ${row}`, { distribution: 'weibull', shape, scale }, times);
      expectMean(lives.good, E_good, E_good / 40, 'good images per tip');
      expectMean(lives.images, E_images, E_images / 40, 'images per tip');
      expectMean(lives.wasted, E_wasted, E_wasted / 20, 'wasted images per tip');
      const time = E_images * times.t_image + E_checks * times.t_check + times.t_replace;
      expectMean(lives.excess(time / E_good), 0, time / 100, 'excess over the time per good image');
    },
  );
});

// Barlow, Hunter & Proschan, J. SIAM 11, 1078 (1963); Barlow & Proschan, Mathematical Theory of Reliability (1965), sec. 4.3.
describe('the interval of checks for a hidden exponential failure', () => {
  const { inputs, expected } = publishedCase(
    'inspection-interval-optimum',
    z.array(z.object({ lam: z.number(), c_check: z.number(), c_per_unit_undetected: z.number() })),
    z.array(z.object({ interval_opt: z.number(), expected_cost_to_detection: z.number(), cost_at_half: z.number() })),
  );

  it.each(inputs.map((input, i) => ({ ...input, row: i })))(
    'costs what is published at the best interval and at half of it ($row)',
    ({ row, lam, c_check, c_per_unit_undetected }) => {
      const { interval_opt, expected_cost_to_detection, cost_at_half } = expected[row];
      const formula = (T: number) =>
        (c_check + c_per_unit_undetected * T) / -Math.expm1(-lam * T) - c_per_unit_undetected / lam;
      for (const [interval, cost] of [
        [interval_opt, expected_cost_to_detection],
        [interval_opt / 2, cost_at_half],
      ]) {
        expect(departure(formula(interval), cost)).toBeLessThan(1e-8);
        // One scan an interval, a perfect check after each: the unit of time of the case is an hour of scanning.
        const tips = useUpTips({
          seed: `hidden failure ${row}`,
          replications: REPLICATIONS,
          tipsAtHand: TIPS,
          images: 1000,
          passes: [{ lines: 3600, lineRate: `${1 / interval} Hz` }],
          hazards: [{ cause: 'breakage', per: 'hour', life: { distribution: 'exponential', mean: `${1 / lam} h` } }],
          noticing: {
            review: { by: 'nobody' },
            check: { every: 1, time: '0 s', sensitivity: 1, falseAlarm: 0, repeatSuspects: false },
          },
        }).flatMap(({ tipRecords }) => tipRecords);
        const costs = tips.map(
          ({ use, spoiled }) =>
            c_check * use.images + c_per_unit_undetected * (use.hours - (spoiled?.use.hours ?? use.hours)),
        );
        expectMean(costs, cost, cost / 30, `cost with a check every ${interval}`);
      }
    },
  );
});
