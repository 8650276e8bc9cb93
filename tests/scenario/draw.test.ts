import { describe, expect, it } from 'vitest';
import { LuckTable } from '../../src/chance/luck.js';
import { drawerOf, drawing } from '../../src/scenario/draw.js';
import { average, correlation, variance } from '../support/chance.js';
import { altered, load } from './sample.js';

const WEIBULL = 'life: {distribution: weibull, shape: 2, scale: 30 h}';
const coating = (uncertainty: string) => altered([WEIBULL, `${WEIBULL}, uncertainty: ${uncertainty}`]);
const FITTED = '{of: [shape, scale], covariance: [[0.04, -0.03], [-0.03, 0.09]]}';
const table = new LuckTable('draws of parameter uncertainty');

/** The numbers of so many draws of the first input, by parameter. */
function draws(text: string, n: number): readonly (readonly number[])[] {
  const [input] = load(text).inputs;
  const all = Array.from({ length: n }, (_, draw) => drawerOf(input)(table.replication(draw)));
  return input.parameters.map((_, i) => all.map((values) => values[i].value));
}

describe('draws of parameter uncertainty', () => {
  it('have the covariance of the logarithms that a fit gave, about the value of the scenario', () => {
    // 4000 draws, fixed seed. Normal: a mean is off by 6 standard errors, or a variance by 6·√(2/n), once in 5e8 times; Fisher's z
    // of a correlation has standard error 1/√(n - 3). Five statements, so a false alarm once in 1e8.
    const n = 4000;
    const [shape, scale] = draws(coating(FITTED), n).map((values) => values.map(Math.log));
    for (const [values, centre, spread] of [
      [shape, Math.log(2), 0.2],
      [scale, Math.log(30), 0.3],
    ] as const) {
      expect(Math.abs(average(values) - centre)).toBeLessThan((6 * spread) / Math.sqrt(n));
      expect(Math.abs(variance(values) / spread ** 2 - 1)).toBeLessThan(6 * Math.sqrt(2 / n));
    }
    expect(Math.abs(Math.atanh(correlation(shape, scale)) - Math.atanh(-0.5))).toBeLessThan(6 / Math.sqrt(n - 3));
  });

  it('lie within a range given by hand in 95 of 100 cases, about its middle on the scale of logarithms', () => {
    // 4000 draws; the count is binomial with p = 0.95, standard deviation 13.8: beyond 6 of them once in 1e8 times (skewness included).
    const n = 4000;
    const [scale] = draws(coating('{range: {scale: [20 h, 80 h]}}'), n);
    const inside = scale.filter((value) => value > 20 && value < 80).length;
    expect(Math.abs(inside - 0.95 * n)).toBeLessThan(6 * Math.sqrt(n * 0.95 * 0.05));
    const below = scale.filter((value) => value < 40).length;
    expect(Math.abs(below - n / 2)).toBeLessThan(6 * Math.sqrt(n / 4));
  });

  it('are those of the input and of the draw alone, whatever else is uncertain and in whatever order they are asked for', () => {
    const text = coating(FITTED);
    const more = text.replace('mean: 800 mm}', 'mean: 800 mm}\n        uncertainty: {range: {mean: [500 mm, 900 mm]}}');
    const [one] = load(text).inputs;
    const [, same] = load(more).inputs;
    const forwards = [1, 2, 3].map((draw) => drawerOf(one)(table.replication(draw)));
    const backwards = [3, 2, 1].map((draw) => drawerOf(same)(table.replication(draw)));
    expect(backwards.toReversed()).toEqual(forwards);
    expect(new Set(forwards.map((values) => JSON.stringify(values))).size).toBe(3);
  });

  it('are the same for all strategies, but for what one sets itself', () => {
    const loaded = load(`${coating(FITTED)}    set: {tips.coated.hazards.coating.life.shape: 3}\n`);
    const scenario = drawing(loaded, loaded.inputs)(table.replication(1));
    const [byHand, hopping] = scenario.strategies.map(({ settings }) => settings.tips['coated'].hazards[0].life);
    expect(byHand).toEqual(scenario.base.tips['coated'].hazards[0].life);
    expect(byHand).not.toEqual(loaded.base.tips['coated'].hazards[0].life);
    expect(hopping).toEqual({ ...byHand, shape: 3 });
  });

  it('are the same in both workflows of what both have alike, and not of what one alone has, or has otherwise', () => {
    const drift = (rate: string, ranges: string) =>
      `drift: {handling: {rate: ${rate}, geometricSd: 1.5}, uncertainty: {range: {${ranges}}}}`;
    const [rate, geometricSd] = ['handling.rate: [0.5 nm/s, 2 nm/s]', 'handling.geometricSd: [1.2, 2]'];
    const shared = `${rate}, ${geometricSd}`;
    const drawn = (swap: string, hop: string) => {
      const loaded = load(altered(['  hop:\n', `  swap: {${swap}}\n  hop:\n    ${hop}\n`]));
      expect(loaded.inputs.map(({ description }) => description)).toEqual(['Drift, swap', 'Drift, hop']);
      const { workflows } = drawing(loaded, loaded.inputs)(table.replication(1)).base;
      return [workflows.swap.drift?.handling, workflows.hop.drift?.handling];
    };
    const [swap, hop] = drawn(drift('1 nm/s', shared), drift('1 nm/s', `${geometricSd}, ${rate}`));
    expect(hop).toEqual(swap);
    expect(swap?.rate).not.toBe(1);
    const [one, other] = drawn(drift('1 nm/s', shared), drift('1.1 nm/s', shared));
    expect(other?.rate).not.toBe(one?.rate);
    expect(other?.geometricSd).toBe(one?.geometricSd);
  });

  it('leave the scenario as it is where nothing is uncertain', () => {
    const loaded = load(coating('{of: [shape, scale], covariance: [[0, 0], [0, 0]]}'));
    const drawn = drawing(loaded, loaded.inputs)(table.replication(1));
    expect(drawn.base).toEqual(loaded.base);
  });

  it('are brought back to what the schema allows, which is told', () => {
    const loaded = load(coating('{of: [shape], covariance: [[400]]}'));
    const inputs = loaded.inputs;
    const all = Array.from({ length: 20 }, (_, draw) => drawing(loaded, inputs)(table.replication(draw)));
    const shapes = all.map(({ base }) => JSON.stringify(base.tips['coated'].hazards[0].life));
    const isAtEnd = shapes.map((life) => /"shape":(?:0\.05|50)[,}]/u.test(life));
    expect(isAtEnd).toContain(true);
    const drawnBy = drawerOf(inputs[0]);
    const told = all.map((_, draw) => drawnBy(table.replication(draw)).some(({ isClipped }) => isClipped));
    expect(told).toEqual(isAtEnd);
  });
});
