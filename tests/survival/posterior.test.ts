import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { exp, ln } from '../../src/chance/elementary.js';
import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { normalQuantile } from '../../src/chance/normal.js';
import type { Observation } from '../../src/survival/observation.js';
import { normalPriors, posteriorOf } from '../../src/survival/posterior.js';
import { departure, publishedCase } from '../support/check-values.js';
import { madeWith } from '../support/made-lives.js';

const LEVEL = 0.95;

/** So many lives of equal length, of which some ended by an event. */
function lives(events: number, exposure: number, tips = events): Observation[] {
  const each = exposure / tips;
  return Array.from({ length: tips }, (_, i) => ({ entry: 0, from: each, to: i < events ? each : Infinity }));
}

describe('a posterior by grid', () => {
  it('is the closed form where the prior of a rate is a gamma (Gelman et al., Bayesian Data Analysis, section 2.6)', () => {
    const { inputs, expected } = publishedCase(
      'gamma-exponential-posterior',
      z.object({ prior: z.object({ shape: z.number(), rate: z.number() }), events: z.number(), exposure: z.number() }),
      z.object({
        mean: z.number(),
        sd: z.number(),
        quantiles: z.record(z.string(), z.number()),
        predictive_survival_at_30: z.number(),
      }),
    );
    const { shape, rate } = inputs.prior;
    // The density of ln mean, where the rate has that of a gamma.
    const logPrior = ([free]: readonly number[]) => -shape * free - rate * exp(-free);
    const log = lives(inputs.events, inputs.exposure, 12);
    const finer = { along: 0.025, across: 1 };
    const found = posteriorOf('exponential', log, logPrior, [ln(30)], LEVEL, finer);
    if (found === null) throw new Error('no posterior');
    const rateOf = ([free]: readonly number[]) => exp(-free);
    const mean = found.expected(rateOf);
    expect(departure(mean, expected.mean)).toBeLessThan(1e-9);
    const square = found.expected((free) => (rateOf(free) - mean) ** 2);
    expect(departure(Math.sqrt(square), expected.sd)).toBeLessThan(1e-9);
    const survival = found.expected((free) => exp(-30 * rateOf(free)));
    expect(departure(survival, expected.predictive_survival_at_30)).toBeLessThan(1e-9);
    const [{ low, high }] = found.parameters;
    expect(departure(1 / high, expected.quantiles['0.025'])).toBeLessThan(1e-8);
    expect(departure(1 / low, expected.quantiles['0.975'])).toBeLessThan(1e-8);
  });

  it('is the range where there is no tip, and the whole of it', () => {
    const [low, high] = [20, 500];
    const centre = (ln(low) + ln(high)) / 2;
    const standardDeviation = (ln(high) - ln(low)) / 2 / normalQuantile(0.975);
    const found = posteriorOf('exponential', [], normalPriors([{ centre, standardDeviation }]), [centre], LEVEL);
    expect(found?.parameters[0].low).toBeCloseTo(low, 3);
    expect(found?.parameters[0].high).toBeCloseTo(high, 1);
    expect(found?.parameters[0].value).toBeCloseTo(Math.sqrt(low * high), 9);
  });

  it('rises above the range where tips were used up without any event', () => {
    const prior = { centre: ln(100), standardDeviation: 0.8 };
    const found = posteriorOf('exponential', lives(0, 2000, 20), normalPriors([prior]), [prior.centre], LEVEL);
    expect(found?.parameters[0].low).toBeGreaterThan(100);
  });

  it('holds the true life as often as it says, over 1000 repeats in which the life is drawn from the range', () => {
    // Binomial(1000, 0.95): outside of 913 to 981 less than once in a million seeds.
    const prior = { centre: ln(100), standardDeviation: 0.8 };
    const repeats = 1000;
    const table = new LuckTable('true lives');
    let held = 0;
    for (let repeat = 0; repeat < repeats; repeat += 1) {
      const u = table.replication(repeat).uniform(PURPOSES.parameterUncertainty, 0, 0, 0, 0);
      const mean = exp(prior.centre + prior.standardDeviation * normalQuantile(u));
      const log = madeWith({ distribution: 'exponential', mean }, 4, 'coverage', repeat);
      const found = posteriorOf('exponential', log, normalPriors([prior]), [prior.centre], LEVEL);
      const parameter = found?.parameters[0];
      if (parameter !== undefined && parameter.low <= mean && mean <= parameter.high) held += 1;
    }
    expect(held).toBeGreaterThanOrEqual(913);
    expect(held).toBeLessThanOrEqual(981);
  });
});
