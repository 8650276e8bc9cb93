import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { normalQuantile } from '../../src/chance/normal.js';
import { sobolIndices } from '../../src/statistics/information/sobol.js';
import { publishedCase } from '../support/check-values.js';
import { nonEmpty } from '../support/non-empty.js';

/*
 * Ishigami's function: T. Ishigami and T. Homma, Proc. ISUMA, 398 (1990); indices as in A. Saltelli et al., Global Sensitivity
 * Analysis: The Primer, Wiley (2008). The g-function: I. M. Sobol', Math. Model. Comput. Exp. 1, 407 (1993); A. Saltelli and
 * I. M. Sobol', Reliab. Eng. Syst. Saf. 50, 225 (1995).
 */
const indices = z.object({ variance: z.number(), S1: z.array(z.number()), ST: z.array(z.number()) });
const ishigami = publishedCase('ishigami-sobol', z.object({ a: z.number(), b: z.number() }), indices);
const g = publishedCase('sobol-g', z.object({ a: z.array(z.number()) }), indices);

const DRAWS = 2000;

function uniformDraws(inputs: number, purpose: number): readonly (readonly number[])[] {
  const luck = new LuckTable('sobol').replication(purpose);
  return Array.from({ length: inputs }, (_, input) =>
    Array.from({ length: DRAWS }, (_, draw) => luck.uniform(PURPOSES.parameterUncertainty, 0, input, draw, 0)),
  );
}

/** Indices of each input alone from one sample, with noise that makes up a fifth of what is seen. */
function estimated(
  inputs: readonly (readonly number[])[],
  f: (x: readonly number[]) => number,
  variance: number,
  seed: number,
) {
  const noise = variance / 4;
  const luck = new LuckTable('noise').replication(seed);
  const values = inputs[0].map(
    (_, draw) =>
      f(inputs.map((column) => column[draw])) +
      Math.sqrt(noise) * normalQuantile(luck.uniform(PURPOSES.parameterUncertainty, 0, 0, draw, 0)),
  );
  const groups = inputs.map((_, input) => [input]);
  return sobolIndices(values, inputs, groups, noise);
}

/** 5/√N, as far as an estimate from N draws may be off. */
const ROOM = 5 / Math.sqrt(DRAWS);

function expectIndices(found: ReturnType<typeof estimated>, { S1, ST }: z.output<typeof indices>): void {
  found.indices.forEach(({ first, total }, input) => {
    expect(Math.abs(first - S1[input])).toBeLessThan(ROOM);
    expect(Math.abs(total - ST[input])).toBeLessThan(ROOM);
  });
}

describe('Sobol’ indices from one sample of draws with noise', () => {
  it('are those of Ishigami’s function, whose third input acts only together with the first', () => {
    const draws = uniformDraws(3, 1).map((column) => column.map((u) => Math.PI * (2 * u - 1)));
    const { a, b } = ishigami.inputs;
    const f = ([x1, x2, x3]: readonly number[]) => Math.sin(x1) * (1 + b * x3 ** 4) + a * Math.sin(x2) ** 2;
    const found = estimated(draws, f, ishigami.expected.variance, 1);
    expectIndices(found, ishigami.expected);
    expect(found.indices[2].first).toBeLessThan(0.02);
  });

  it('are those of the g-function', () => {
    const f = (x: readonly number[]) =>
      x.reduce((product, each, i) => (product * (Math.abs(4 * each - 2) + g.inputs.a[i])) / (1 + g.inputs.a[i]), 1);
    expectIndices(estimated(uniformDraws(8, 2), f, g.expected.variance, 2), g.expected);
  });

  it('are the shares of variance of a sum of two normals, and next to nothing for what does nothing', () => {
    const two = publishedCase(
      'voi-two-normals',
      z.unknown(),
      z.object({ sobol_first: z.object({ p1: z.number(), p2: z.number() }) }),
    );
    const draws = uniformDraws(3, 3).map((column) => column.map(normalQuantile));
    const [p1, p2, nothing] = estimated(draws, ([x1, x2]) => x1 - 2 * x2, 5, 3).indices;
    expect(Math.abs(p1.first - two.expected.sobol_first.p1)).toBeLessThan(ROOM);
    expect(Math.abs(p2.first - two.expected.sobol_first.p2)).toBeLessThan(ROOM);
    expect(Math.abs(p1.total - p1.first)).toBeLessThan(ROOM);
    expect(nothing.first).toBeLessThan(0.0005);
    expect(nothing.total).toBeLessThan(0.0005);
  });

  it('find an interaction among sixty inputs, of which two act', () => {
    // f = x1 + x2 + 2 x1 x2 of standard uniforms on (−√3, √3): V = 1 + 1 + 4; S = 1/6, ST = 5/6 of either, by hand.
    const draws = uniformDraws(60, 4).map((column) => column.map((u) => Math.sqrt(3) * (2 * u - 1)));
    const { indices, explained } = estimated(draws, ([x1, x2]) => x1 + x2 + 2 * x1 * x2, 6, 4);
    for (const { first, total } of nonEmpty(indices.slice(0, 2))) {
      expect(Math.abs(first - 1 / 6)).toBeLessThan(ROOM);
      expect(Math.abs(total - 5 / 6)).toBeLessThan(ROOM);
    }
    for (const { total } of nonEmpty(indices.slice(2))) expect(total).toBeLessThan(0.005);
    expect(explained).toBeGreaterThan(1 - ROOM);
  });

  it('say how little is explained where it hangs on what no smooth curve follows', () => {
    // The parity of the place among forty: half of the draws 1, half −1, without a trend.
    const parity = ([x1]: readonly number[]) => (Math.floor(40 * x1) % 2 === 0 ? 1 : -1);
    const { indices, explained } = estimated(uniformDraws(2, 5), parity, 1, 5);
    expect(explained).toBeLessThan(ROOM);
    expect(indices[0].total).toBeLessThan(ROOM);
  });
});
