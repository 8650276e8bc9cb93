import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { normalQuantile } from '../../src/chance/normal.js';
import { Surrogate } from '../../src/statistics/information/surrogate.js';
import { type InformationValue, valueOfKnowing, valueOfKnowingAll } from '../../src/statistics/information/value.js';
import { average, variance } from '../support/chance.js';
import { publishedCase } from '../support/check-values.js';
import { nonEmpty } from '../support/non-empty.js';

/*
 * Two normals: what is gained by the second of two choices is p1 − p2. Closed form by the unit normal loss integral; the example
 * of two normals of the vignette of the R package voi (C. Jackson, 2024). Method: M. Strong, J. E. Oakley and A. Brennan,
 * Med. Decis. Making 34, 311 (2014); M. Strong et al., Med. Decis. Making 35, 570 (2015).
 */
const normal = z.object({ mean: z.number(), sd: z.number() });
const { inputs, expected } = publishedCase(
  'voi-two-normals',
  z.object({ p1: normal, p2: normal, evsi_reading_sd: z.number(), evsi_n: z.array(z.number()) }),
  z.object({
    evppi_p1: z.number(),
    evppi_p2: z.number(),
    evpi: z.number(),
    evsi_p2: z.array(z.number()),
  }),
);

const REPEATS = 100;
const DRAWS = 1000;
const LEVEL = 0.95;
/** Noise within a draw, as a mean of few replications has it. */
const NOISE = 2;

/** One sample of draws: parameters, a third that does nothing, means of readings of p2, and the losses of both choices. */
function sample(repeat: number) {
  const luck = new LuckTable('two normals').replication(repeat);
  const column = (which: number, mean: number, sd: number) =>
    Array.from(
      { length: DRAWS },
      (_, draw) => mean + sd * normalQuantile(luck.uniform(PURPOSES.parameterUncertainty, 0, which, draw, 0)),
    );
  const p1 = column(0, inputs.p1.mean, inputs.p1.sd);
  const p2 = column(1, inputs.p2.mean, inputs.p2.sd);
  const nothing = column(2, 0, 1);
  const noise = column(3, 0, NOISE);
  const readings = inputs.evsi_n.map((n, place) => {
    const errors = column(4 + place, 0, inputs.evsi_reading_sd / Math.sqrt(n));
    return p2.map((value, draw) => value + errors[draw]);
  });
  return {
    p1,
    p2,
    nothing,
    readings,
    losses: [p1.map(() => 0), p1.map((value, draw) => p2[draw] - value + noise[draw])],
  };
}

const samples = Array.from({ length: REPEATS }, (_, repeat) => sample(repeat));

/** Every mean lies within five standard errors of its own repeats: each a false alarm less than once in a million seeds. */
function expectMean(values: readonly InformationValue[], exact: number): void {
  const found = values.map(({ value }) => value);
  expect(Math.abs(average(found) - exact)).toBeLessThan(5 * Math.sqrt(variance(found) / REPEATS));
}

describe('the value of information on two normals', () => {
  const known = samples.map(({ p1, p2, nothing, losses }) => {
    const surrogate = new Surrogate([p1, p2, nothing]);
    const of = (...which: number[]) => valueOfKnowing(losses, surrogate, which, LEVEL);
    return { p1: of(0), p2: of(1), nothing: of(2), both: of(0, 1) };
  });

  it('is that of the closed form for either parameter and for both', () => {
    expectMean(
      known.map(({ p1 }) => p1),
      expected.evppi_p1,
    );
    expectMean(
      known.map(({ p2 }) => p2),
      expected.evppi_p2,
    );
    expectMean(
      known.map(({ both }) => both),
      expected.evpi,
    );
  });

  it('is 0.000 for what does nothing', () => {
    // A column of noise is taken in once in a hundred fits or so, which moves few choices a little.
    const found = known.map(({ nothing }) => nothing.value);
    expect(average(found)).toBeLessThan(0.0005);
    expect(found.filter((value) => value === 0).length).toBeGreaterThanOrEqual(80);
  });

  it('is that of the closed form for 1, 4 and 16 readings', () => {
    expected.evsi_p2.forEach((exact, place) => {
      expectMean(
        samples.map(({ readings, losses }) => valueOfKnowing(losses, new Surrogate([readings[place]]), [0], LEVEL)),
        exact,
      );
    });
  });

  it('lies in its interval in about as many repeats as the level says', () => {
    // Binomial(100, 0.95): fewer than 82 comes less than once in a million seeds.
    for (const [which, exact] of [
      ['p1', expected.evppi_p1],
      ['p2', expected.evppi_p2],
      ['both', expected.evpi],
    ] as const) {
      const held = known.filter((values) => values[which].low <= exact && exact <= values[which].high);
      expect(held.length).toBeGreaterThanOrEqual(82);
    }
  });
});

describe('the value of information among many', () => {
  const normals = (repeat: number, count: number) => {
    const luck = new LuckTable('many normals').replication(repeat);
    return Array.from({ length: count }, (_, which) =>
      Array.from({ length: DRAWS }, (_, draw) =>
        normalQuantile(luck.uniform(PURPOSES.parameterUncertainty, 0, which, draw, 0)),
      ),
    );
  };

  it('is 0.000 for ten settings that are truly equal, whatever is known, each with noise of its own', () => {
    // Three inputs move all settings alike, so that no knowledge of them makes a better choice; the noise has a standard deviation of
    // 1. A fit that takes in terms without the price of the information criterion finds 0.15 in single repeats here.
    const found = Array.from({ length: 20 }, (_, repeat) => {
      const [x, y, z, ...noise] = normals(repeat, 13);
      const losses = noise.map((own) => own.map((each, draw) => each + x[draw] + y[draw] * z[draw]));
      const surrogate = new Surrogate([x, y, z]);
      return [[0], [1], [0, 1, 2]].map((known) => valueOfKnowing(losses, surrogate, known, LEVEL));
    });
    for (const [one, other, all] of nonEmpty(found)) {
      for (const each of nonEmpty([one, other, all])) {
        expect(each.value).toBeLessThan(0.1);
        expect(each.low).toBe(0);
      }
    }
    for (const known of [0, 1, 2]) expect(average(found.map((each) => each[known].value))).toBeLessThan(0.005);
    expect(found.filter(([one]) => one.value === 0).length).toBeGreaterThanOrEqual(10);
  });

  it('of all of 110 inputs is that of the one that acts, of which no straight line tells', () => {
    // A loss of x² - 1 beside one of 0, x standard normal: E max(0, 1 - x²) = 2φ(1), by parts.
    const exact = 2 * Math.exp(-0.5) * Math.sqrt(1 / (2 * Math.PI));
    const found = Array.from({ length: 10 }, (_, repeat) => {
      const inputs = normals(repeat, 110);
      const losses = [inputs[0].map(() => 0), inputs[0].map((x) => x * x - 1)];
      return valueOfKnowingAll(losses, inputs, LEVEL).value;
    });
    // The mean over draws of a quantity of standard deviation below 0.5, ten times; a polynomial of the ranks leaves up to 0.02.
    expect(Math.abs(average(found) - exact)).toBeLessThan((5 * 0.5) / Math.sqrt(10 * DRAWS) + 0.02);
  });
});
