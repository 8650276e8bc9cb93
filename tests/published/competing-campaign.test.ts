import { describe, it } from 'vitest';
import { z } from 'zod';
import { expectMean } from '../support/agreement.js';
import { publishedCase } from '../support/check-values.js';
import { spoilingOf, tipLives } from '../support/tip-lives.js';

/*
 * Competing hazards through the per-tip table of whole campaigns. 1500 tips a case, fixed seeds; 31 comparisons of means
 * (tests/support/agreement.ts): fails by chance less than once in a million seeds.
 */
const CAUSES = ['breakage', 'fouling', 'worn-out'] as const;

function firstSpoilings(seed: string, lives: readonly object[], images: number) {
  return tipLives({
    seed,
    replications: 60,
    tipsAtHand: 25,
    images,
    hazards: lives.map((life, i) => ({
      cause: CAUSES[i],
      per: 'image',
      life,
      ...(i === 0 ? {} : { quality: 0.5 }),
    })),
  }).map(spoilingOf);
}

function expectShares(firsts: ReturnType<typeof firstSpoilings>, shares: readonly number[]): void {
  shares.forEach((share, i) => {
    const isOfCause: number[] = firsts.map(({ cause }) => (cause === CAUSES[i] ? 1 : 0));
    expectMean(isOfCause, share, 0.015, `share of ${CAUSES[i]}`);
  });
}

describe('competing hazards of a campaign', () => {
  // Cox & Oakes, Analysis of Survival Data (1984), ch. 9: rates add, and the cause is independent of the time.
  it('share the tips by their rates, where all are exponential', () => {
    const { inputs, expected } = publishedCase(
      'competing-exponentials',
      z.object({ rates: z.array(z.number()) }),
      z.object({ mean: z.number(), cause_prob: z.array(z.number()), cond_mean_given_cause: z.number() }),
    );
    const firsts = firstSpoilings(
      'competing exponentials',
      inputs.rates.map((rate) => ({ distribution: 'exponential', mean: 1 / rate })),
      2600,
    );
    expectShares(firsts, expected.cause_prob);
    expectMean(
      firsts.map(({ use }) => use.images),
      expected.mean,
      1,
      'mean life',
    );
    for (const wanted of CAUSES)
      expectMean(
        firsts.filter(({ cause }) => cause === wanted).map(({ use }) => use.images),
        expected.cond_mean_given_cause,
        2.5,
        `mean life of those spoiled by ${wanted}`,
      );
  });

  // Closed form, agrees with quadrature to 1e-12 (check-values.json).
  it('live as one Weibull, where all are Weibull with one shape', () => {
    const { inputs, expected } = publishedCase(
      'competing-weibull-same-shape',
      z.object({ shape: z.number(), scales: z.array(z.number()) }),
      z.object({ mean: z.number(), cause_prob: z.array(z.number()), median: z.number(), sd: z.number() }),
    );
    const firsts = firstSpoilings(
      'competing Weibulls',
      inputs.scales.map((scale) => ({ distribution: 'weibull', shape: inputs.shape, scale })),
      3000,
    );
    expectShares(firsts, expected.cause_prob);
    const ages = firsts.map(({ use }) => use.images);
    expectMean(ages, expected.mean, 1, 'mean life');
    expectMean(
      ages.map((age) => (age - expected.mean) ** 2),
      expected.sd ** 2,
      30,
      'variance of life',
    );
    expectMean(
      ages.map((age) => (age > expected.median ? 1 : 0)),
      0.5,
      0.015,
      'share beyond the median',
    );
  });

  // P(cause j) = ∫ h_j S, by SciPy 1.10.1 and mpmath quadrature (check-values.json).
  it('share the tips as published, where wear, contamination and breakage have their own shapes', () => {
    const { inputs, expected } = publishedCase(
      'competing-weibull-mixed',
      z.array(z.array(z.object({ shape: z.number(), scale: z.number() }))),
      z.object({
        rows: z.array(z.object({ mean: z.number(), median: z.number(), cause_prob: z.array(z.number()) })),
        cif_of_first: z.array(
          z.object({ t: z.number(), cif_wear: z.number(), cif_random: z.number(), surv: z.number() }),
        ),
      }),
    );
    inputs.forEach((distributions, row) => {
      const firsts = firstSpoilings(
        `competing mixed ${row}`,
        distributions.map(({ shape, scale }) => ({ distribution: 'weibull', shape, scale })),
        3600,
      );
      const { mean, median, cause_prob } = expected.rows[row];
      expectShares(firsts, cause_prob);
      expectMean(
        firsts.map(({ use }) => use.images),
        mean,
        1.3,
        'mean life',
      );
      expectMean(
        firsts.map(({ use }) => (use.images > median ? 1 : 0)),
        0.5,
        0.015,
        'share beyond the median',
      );
      if (row > 0) return;
      for (const { t, cif_wear, cif_random } of expected.cif_of_first.slice(1, 3)) {
        const shareBy = (wanted: string): number[] =>
          firsts.map(({ cause, use }) => (cause === wanted && use.images <= t ? 1 : 0));
        expectMean(shareBy('breakage'), cif_wear, 0.015, `worn by ${t}`);
        expectMean(shareBy('fouling'), cif_random, 0.015, `contaminated by ${t}`);
      }
    });
  });
});
