import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { compileLife, type LifeDistribution } from '../../src/chance/life.js';
import { weibull } from '../../src/chance/life/weibull.js';
import { average, correlation, lives, uniforms, variance } from '../support/chance.js';
import { departure, publishedCase } from '../support/check-values.js';
import { publishedDistributions, publishedLife } from '../support/published-distributions.js';
import { nonEmpty } from '../support/non-empty.js';

// The published tolerance of simulations is 4 standard errors, tighter than a false alarm in a million asks for (5.2 with one comparison);
// the seeds are fixed, so what passes once passes always.
const BOUND = 4;
const N = 100_000;
const shaped = z.object({ shape: z.number(), scale: z.number() });

/** Draws the causes' lives on common luck, one index c a cause, and gives each round's first cause and its life. */
function race(distributions: readonly LifeDistribution[], seed: string): { cause: number; life: number }[] {
  const columns = distributions.map((distribution, c) => lives(distribution, seed, N, c));
  return columns[0].map((_, i) => {
    const round = columns.map((column) => column[i]);
    const life = Math.min(...round);
    return { cause: round.indexOf(life), life };
  });
}

function expectShares(rounds: readonly { cause: number }[], shares: readonly number[]): void {
  shares.forEach((share, cause) => {
    const seen = rounds.filter((round) => round.cause === cause).length / N;
    expect(Math.abs(seen - share)).toBeLessThan(BOUND * Math.sqrt((share * (1 - share)) / N));
  });
}

describe('sampled lives', () => {
  // Closed forms, computed with SciPy 1.10.1 and mpmath. n = 100 000 a distribution.
  it('have the published means and variances', () => {
    const { inputs, expected } = publishedCase(
      'sampling-moments',
      publishedDistributions,
      z.record(
        z.string(),
        z.object({ mean: z.number(), variance: z.number(), excess_kurtosis: z.number(), median: z.number() }),
      ),
    );
    for (const [name, distribution] of nonEmpty(Object.entries(inputs))) {
      const life = compileLife(publishedLife(name, distribution));
      const sample = lives(life, 'moments', N);
      const { mean, variance: spread, excess_kurtosis: kurtosis, median } = expected[name];
      expect(Math.abs(average(sample) - mean), name).toBeLessThan(BOUND * Math.sqrt(spread / N));
      expect(Math.abs(variance(sample) - spread), name).toBeLessThan(BOUND * spread * Math.sqrt((kurtosis + 2) / N));
      expect(departure(life.exposureAt(Math.LN2), median), name).toBeLessThan(1e-9);
    }
  });

  // D. R. Cox and D. Oakes, Analysis of Survival Data (1984), chapter 9.
  it('race as independent exponentials do: shares by rate, the cause without bearing on the time', () => {
    const { inputs, expected } = publishedCase(
      'competing-exponentials',
      z.object({ rates: z.array(z.number()) }),
      z.object({ mean: z.number(), cause_prob: z.array(z.number()), cond_mean_given_cause: z.number() }),
    );
    const distributions = inputs.rates.map((rate) => compileLife({ distribution: 'exponential', mean: 1 / rate }));
    const rounds = race(distributions, 'competing exponentials');
    expectShares(rounds, expected.cause_prob);
    expect(Math.abs(average(rounds.map(({ life }) => life)) - expected.mean)).toBeLessThan(
      (BOUND * expected.mean) / Math.sqrt(N),
    );
    distributions.forEach((_, cause) => {
      const given = rounds.filter((round) => round.cause === cause).map(({ life }) => life);
      const error = expected.cond_mean_given_cause / Math.sqrt(given.length);
      expect(Math.abs(average(given) - expected.cond_mean_given_cause)).toBeLessThan(BOUND * error);
    });
  });

  // Closed form: scale^-b = Σ scale_i^-b.
  it('race as Weibulls of one shape do', () => {
    const { inputs, expected } = publishedCase(
      'competing-weibull-same-shape',
      z.object({ shape: z.number(), scales: z.array(z.number()) }),
      z.object({
        min_scale: z.number(),
        mean: z.number(),
        sd: z.number(),
        median: z.number(),
        cause_prob: z.array(z.number()),
      }),
    );
    const distributions = inputs.scales.map((scale) => weibull.compile({ shape: inputs.shape, scale }));
    const rounds = race(distributions, 'competing Weibulls');
    expectShares(rounds, expected.cause_prob);
    const mean = average(rounds.map(({ life }) => life));
    expect(Math.abs(mean - expected.mean)).toBeLessThan((BOUND * expected.sd) / Math.sqrt(N));
    const together = weibull.compile({ shape: inputs.shape, scale: expected.min_scale });
    expect(departure(together.exposureAt(Math.LN2), expected.median)).toBeLessThan(1e-9);
    for (const x of [1, 30, 200]) {
      const sum = distributions.reduce((hazard, distribution) => hazard + distribution.cumulativeHazard(x), 0);
      expect(departure(sum, together.cumulativeHazard(x))).toBeLessThan(1e-9);
    }
  });

  // P(cause j) = ∫ h_j S, by adaptive quadrature with SciPy 1.10.1 and mpmath.
  it('race as Weibulls of different shapes do', () => {
    const { inputs, expected } = publishedCase(
      'competing-weibull-mixed',
      z.array(z.array(shaped)),
      z.object({
        rows: z.array(
          z.object({ mean: z.number(), sd: z.number(), median: z.number(), cause_prob: z.array(z.number()) }),
        ),
        cif_of_first: z.array(
          z.object({ t: z.number(), cif_wear: z.number(), cif_random: z.number(), surv: z.number() }),
        ),
      }),
    );
    const races = inputs.map((terms, row) =>
      race(
        terms.map((term) => weibull.compile(term)),
        `mixed Weibulls ${row}`,
      ),
    );
    expected.rows.forEach(({ mean, sd, cause_prob: shares }, row) => {
      expectShares(races[row], shares);
      expect(Math.abs(average(races[row].map(({ life }) => life)) - mean)).toBeLessThan((BOUND * sd) / Math.sqrt(N));
    });
    for (const { t, cif_wear: wear, cif_random: random, surv } of expected.cif_of_first) {
      const before = races[0].map(({ cause, life }) => ({ cause: life <= t ? cause : 2 }));
      expectShares(before, [wear, random, surv]);
    }
  });
});

describe('common luck', () => {
  const { inputs, expected } = publishedCase(
    'crn-correlation',
    z.object({ pairs: z.array(z.tuple([z.number(), z.number()])) }),
    z.object({
      b1_1_b2_2: z.object({ cov: z.number(), corr: z.number() }),
      others: z.array(
        z.object({ b1: z.number(), b2: z.number(), corr: z.number(), var_ratio_diff_crn_over_indep: z.number() }),
      ),
      antithetic_exponential: z.number(),
    }),
  );
  const n = 5000;
  const resamples = 200;
  const hazards = uniforms('common luck', n).map((u) => -Math.log1p(-u));
  const livesOf = (shape: number) => hazards.map((hazard) => weibull.compile({ shape, scale: 1 }).exposureAt(hazard));

  type Statistic = (a: readonly number[], b: readonly number[]) => number;

  const picks = Array.from({ length: resamples }, (_, resample) =>
    uniforms('bootstrap', n, resample).map((u) => Math.floor(u * n)),
  );

  /** Departure of a statistic of n pairs from its exact value, in bootstrap standard errors (200 resamples). */
  function bootstrapDeviate(statistic: Statistic, a: readonly number[], b: readonly number[], exact: number): number {
    const replicates = picks.map((picked) =>
      statistic(
        picked.map((i) => a[i]),
        picked.map((i) => b[i]),
      ),
    );
    return Math.abs(statistic(a, b) - exact) / Math.sqrt(variance(replicates));
  }

  // Closed forms; method: A. M. Law, Simulation Modeling and Analysis, chapter 11; P. Glasserman and D. D. Yao, Manag. Sci. 38, 884 (1992).
  it.each(inputs.pairs)('correlates Weibull lives of shapes %d and %d as the closed form says', (b1, b2) => {
    const other = expected.others.find((row) => row.b1 === b1 && row.b2 === b2);
    const exact = other?.corr ?? expected.b1_1_b2_2.corr;
    expect(bootstrapDeviate(correlation, livesOf(b1), livesOf(b2), exact)).toBeLessThan(BOUND);
  });

  it('has the published covariance of an exponential and a Weibull of shape 2', () => {
    const covariance: Statistic = (a, b) => correlation(a, b) * Math.sqrt(variance(a) * variance(b));
    expect(bootstrapDeviate(covariance, livesOf(1), livesOf(2), expected.b1_1_b2_2.cov)).toBeLessThan(BOUND);
  });

  it.each(expected.others)(
    'shrinks the variance of a difference as the closed form says: shapes $b1 and $b2',
    (row) => {
      const ratio: Statistic = (a, b) => variance(a.map((value, i) => value - b[i])) / (variance(a) + variance(b));
      const deviate = bootstrapDeviate(ratio, livesOf(row.b1), livesOf(row.b2), row.var_ratio_diff_crn_over_indep);
      expect(deviate).toBeLessThan(BOUND);
    },
  );

  it('correlates antithetic exponentials by 1 - π²/6', () => {
    const u = uniforms('common luck', n);
    const [one, other] = [u.map((value) => -Math.log(value)), u.map((value) => -Math.log1p(-value))];
    expect(bootstrapDeviate(correlation, one, other, expected.antithetic_exponential)).toBeLessThan(BOUND);
  });
});
