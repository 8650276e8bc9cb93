import { describe, expect, it } from 'vitest';
import { normalQuantile } from '../../../src/chance/normal.js';
import { actingIn } from '../../../src/statistics/information/acting.js';
import { sobolIndices } from '../../../src/statistics/information/sobol.js';
import { Surrogate } from '../../../src/statistics/information/surrogate.js';
import { valueOfKnowing, valueOfKnowingAll } from '../../../src/statistics/information/value.js';
import { nonEmpty } from '../../support/non-empty.js';

const DRAWS = 1000;
/** Roots that no fraction comes near: multiples of them lie evenly in every dimension, so few draws come close to an integral. */
const ROOTS = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43].map(Math.sqrt);
const places = (input: number) => Array.from({ length: DRAWS }, (_, draw) => ((draw + 1) * ROOTS[input]) % 1);
const normals = (input: number) => places(input).map(normalQuantile);

/** E max(0, −x) of a normal x: the unit normal loss integral. */
function normalLoss(mean: number, sd: number): number {
  const density = Math.exp(-((mean / sd) ** 2) / 2) / Math.sqrt(2 * Math.PI);
  return sd * density - mean * below(-mean / sd);
}

/** The normal distribution function by the trapezoidal rule. */
function below(x: number): number {
  const step = 1e-3;
  let sum = 0;
  for (let at = -10; at < x; at += step) sum += (Math.exp(-(at * at) / 2) * step) / Math.sqrt(2 * Math.PI);
  return sum;
}

describe('the value of knowing', () => {
  // The second choice loses 0.3 + 2 p1 + p2 more than the first, without noise.
  const inputs = [normals(0), normals(1), normals(2)];
  const losses = [
    inputs[0].map((_, draw) => draw % 3),
    inputs[0].map((p1, draw) => (draw % 3) + 0.3 + 2 * p1 + inputs[1][draw]),
  ];
  const surrogate = new Surrogate(inputs);

  it.each([
    ['the first input', [0], 2],
    ['the second', [1], 1],
    ['both', [0, 1], Math.sqrt(5)],
  ] as const)('%s is the unit normal loss integral of what it decides', (_, known, sd) => {
    const { value, now, low, high } = valueOfKnowing(losses, surrogate, known, 0.95);
    expect(now).toBe(0);
    // What is not known is noise of at most 2 in the slope of what is: a standard error of 2/√1000.
    expect(Math.abs(value - normalLoss(0.3, sd))).toBeLessThan(0.06);
    expect(low).toBeLessThan(value);
    // A mean of draws whose standard deviation is a little below that of the difference.
    expect((high - value) / ((1.96 * Math.sqrt(5)) / Math.sqrt(DRAWS))).toBeGreaterThan(0.4);
    expect((high - value) / ((1.96 * Math.sqrt(5)) / Math.sqrt(DRAWS))).toBeLessThan(1);
  });

  it('is in each draw that choice which loses least by what is known', () => {
    const { choices } = valueOfKnowing(losses, surrogate, [0, 1], 0.95);
    const right = choices.filter((choice, draw) => choice === Number(losses[1][draw] < losses[0][draw]));
    expect(right.length / DRAWS).toBeGreaterThan(0.97);
    const alone = valueOfKnowing(losses, surrogate, [0], 0.95).choices;
    const byFirst = alone.filter((choice, draw) => choice === Number(0.3 + 2 * inputs[0][draw] < 0));
    expect(byFirst.length / DRAWS).toBeGreaterThan(0.97);
  });

  it('an input that does nothing is nothing, and its interval ends there', () => {
    expect(valueOfKnowing(losses, surrogate, [2], 0.95)).toMatchObject({ value: 0, low: 0, high: 0, now: 0 });
  });

  it('all of many is that of those that act', () => {
    const many = ROOTS.map((_, input) => normals(input));
    const { value, now } = valueOfKnowingAll(losses, many, 0.95);
    expect(now).toBe(0);
    expect(Math.abs(value - normalLoss(0.3, Math.sqrt(5)))).toBeLessThan(0.03);
  });
});

describe('the inputs that act', () => {
  const many = ROOTS.map((_, input) => normals(input));
  const response = many[0].map((_, draw) => many[3][draw] + 0.1 * many[13][draw]);

  it('are all where they are few, whether they act or not', () => {
    expect(actingIn([response], many.slice(0, 12))).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
  });

  it('are of many those that explain something of any response alone, in order', () => {
    const found = actingIn([response], many);
    expect(found).toContain(3);
    expect(found.length).toBeLessThan(6);
    expect(found).toEqual([...found].sort((a, b) => a - b));
    // What counts is the share of each response, however large it is.
    const both = actingIn([response, many[8].map((value) => 1e-6 * value)], many);
    expect(both).toEqual(expect.arrayContaining([3, 8]));
    // One that never varies says nothing of the others.
    expect(actingIn([many[0].map(() => 5), response], many)).toContain(3);
  });

  it('are one at least, where nothing explains anything', () => {
    const alternating = many[0].map((_, draw) => (draw % 2 === 0 ? 1 : -1));
    expect(actingIn([alternating], many).length).toBeGreaterThanOrEqual(1);
    expect(actingIn([many[0].map(() => 5)], many)).toHaveLength(1);
  });
});

describe('what is to be expected', () => {
  it('of a response is itself, where it is a line along the ranks of what is known, or a product of two', () => {
    const [a, b] = [places(0), places(1)];
    const surrogate = new Surrogate([a, b]);
    const response = a.map((value, draw) => 7 + 3 * value + 12 * (value - 0.5) * (b[draw] - 0.5));
    const known = surrogate.expected(response, [0, 1]);
    const alone = surrogate.expected(response, [0]);
    response.forEach((value, draw) => {
      expect(Math.abs(known[draw] - value)).toBeLessThan(0.05);
      expect(Math.abs(alone[draw] - 7 - 3 * a[draw])).toBeLessThan(0.2);
    });
  });

  it('of a draw is told by the other nine tenths of the draws, so that its own noise is never taken for knowledge', () => {
    const a = places(0);
    const response = a.map((value) => 3 * value);
    // Two draws of one tenth, moved apart so that the mean of all stays.
    const moved = response.map((value, draw) => value + (draw === 7 ? 50 : draw === 57 ? -50 : 0));
    const surrogate = new Surrogate([a]);
    const [before, after] = [response, moved].map((each) => surrogate.expected(each, [0]));
    const differs = before.map((value, draw) => Math.abs(after[draw] - value));
    for (const difference of nonEmpty([...differs].filter((_, draw) => draw % 10 === 7)))
      expect(difference).toBeLessThan(1e-9);
    expect(differs.filter((difference, draw) => draw % 10 !== 7 && difference > 1e-3).length).toBeGreaterThan(
      DRAWS / 2,
    );
  });

  it('is the mean of all draws where nothing is known', () => {
    const a = places(0);
    const mean = a.reduce((sum, value) => sum + value, 0) / DRAWS;
    for (const value of nonEmpty(new Surrogate([a]).expected(a, []))) expect(value).toBeCloseTo(mean, 12);
  });
});

describe('shares of variance', () => {
  it('belong to nothing where nothing varies beyond the noise, nor to no input', () => {
    const response = places(0);
    expect(sobolIndices(response, [response], [[]], 0).indices).toEqual([{ first: 0, total: 0 }]);
    expect(sobolIndices(response, [places(0)], [[0]], 1)).toEqual({ indices: [{ first: 0, total: 0 }], explained: 0 });
  });

  it.each([5, 14])('leave what is noise to no input, and find the one of %d that acts', (count) => {
    const inputs = Array.from({ length: count }, (_, input) => places(input));
    const noise = Array.from({ length: DRAWS }, (_, draw) => normalQuantile(((draw + 1) * Math.E) % 1) / 4);
    const response = inputs[3].map((value, draw) => value + noise[draw]);
    const { indices, explained } = sobolIndices(response, inputs, [[3], [0]], 1 / 16);
    expect(indices[0].first).toBeGreaterThan(0.9);
    expect(indices[0].total).toBeGreaterThan(0.9);
    expect(indices[1].total).toBeLessThan(0.05);
    expect(explained).toBeGreaterThan(0.9);
  });

  it('are those of a line with a product, by hand, of single inputs and of groups', () => {
    // f = x + y + 12 (x − ½)(y − ½) of uniforms: variances 1/12, 1/12 and 144/144 = 1.
    const inputs = [places(0), places(1), places(2)];
    const f = inputs[0].map((x, draw) => x + inputs[1][draw] + 12 * (x - 0.5) * (inputs[1][draw] - 0.5));
    const whole = 1 + 1 / 6;
    const { indices, explained } = sobolIndices(f, inputs, [[0], [1], [0, 1], [2]], 0);
    const exact = [
      [1 / 12, 1 + 1 / 12],
      [1 / 12, 1 + 1 / 12],
      [whole, whole],
      [0, 0],
    ];
    expect(indices).toHaveLength(exact.length);
    exact.forEach(([first, total], group) => {
      expect(Math.abs(indices[group].first - first / whole)).toBeLessThan(0.01);
      expect(Math.abs(indices[group].total - total / whole)).toBeLessThan(0.01);
    });
    expect(explained).toBeGreaterThan(0.99);
  });
});
