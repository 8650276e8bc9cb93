import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import {
  effectsAlong,
  morrisMeasures,
  pointsAlong,
  randomTrajectory,
  stepOf,
  type Trajectory,
} from '../../src/statistics/morris.js';
import { publishedCase } from '../support/check-values.js';

/*
 * Elementary effects of a function of five inputs, by full enumeration of the grid: M. D. Morris, Technometrics 33, 161 (1991);
 * mu* of Campolongo et al. (2007). The values are exact; sigma is that of the population.
 */
const { inputs, expected } = publishedCase(
  'morris-exact',
  z.object({ levels: z.number(), delta: z.number() }),
  z.array(z.object({ mu: z.number(), mu_star: z.number(), sigma_population: z.number() })),
);
const INPUTS = expected.length;
const f = ([x1, x2, x3, x4, x5]: readonly number[]) => [
  2 * x1 + x2 * x2 + 3 * x1 * x3 + 0 * x4 + (x5 - 0.5) * (x5 - 0.5),
];

/** Effects of every input, over the trajectories given. */
function effectsOf(trajectories: readonly Trajectory[]): readonly (readonly number[])[] {
  const effects = expected.map((): number[] => []);
  for (const trajectory of trajectories)
    for (const { input, values } of effectsAlong(trajectory, pointsAlong(trajectory).map(f)))
      effects[input].push(values[0]);
  return effects;
}

/** Every point of the grid from which an input can be moved up, each as a trajectory of that one move. */
function everyMove(input: number): readonly Trajectory[] {
  const levels = Array.from({ length: inputs.levels }, (_, level) => level / (inputs.levels - 1));
  const points = expected.reduce<readonly (readonly number[])[]>(
    (found) => found.flatMap((point) => levels.map((level) => [...point, level])),
    [[]],
  );
  return points
    .filter((point) => point[input] + inputs.delta <= 1 + 1e-12)
    .map((start) => ({ start, moves: start.map((level) => level + inputs.delta), order: [input] }));
}

describe('elementary effects', () => {
  it('move by the step that Morris recommends for so many levels', () => {
    expect(stepOf(inputs.levels)).toBeCloseTo(inputs.delta, 15);
  });

  it('come by full enumeration to the exact mu, mu* and sigma of every input', () => {
    expected.forEach((exact, input) => {
      const effects = effectsOf(everyMove(input))[input];
      expect(effects).toHaveLength(inputs.levels ** (INPUTS - 1) * 2);
      const { mu, muStar, sigma } = morrisMeasures(effects);
      expect(mu).toBeCloseTo(exact.mu, 12);
      expect(muStar).toBeCloseTo(exact.mu_star, 12);
      expect(sigma * Math.sqrt((effects.length - 1) / effects.length)).toBeCloseTo(exact.sigma_population, 12);
    });
  });

  it('come close to them over sampled trajectories, and to exactly nothing for an input that does nothing', () => {
    // 400 trajectories; 9 comparisons at 6 standard errors: a false alarm less than once in ten million seeds.
    const luck = new LuckTable('morris').replication(0);
    const sampled = Array.from({ length: 400 }, (_, number) =>
      randomTrajectory(INPUTS, inputs.levels, (kind, input) =>
        luck.uniform(PURPOSES.elementaryEffects, kind, input, number, 0),
      ),
    );
    for (const { order, start, moves } of sampled) {
      expect([...order].sort()).toEqual([0, 1, 2, 3, 4]);
      for (const level of [...start, ...moves]) expect(level).toBeGreaterThanOrEqual(0);
      for (const level of [...start, ...moves]) expect(level).toBeLessThanOrEqual(1);
    }
    effectsOf(sampled).forEach((effects, input) => {
      const { mu, muStar, sigma } = morrisMeasures(effects);
      const room = (6 * expected[input].sigma_population) / Math.sqrt(400);
      if (input === 3) expect([mu, muStar, sigma]).toEqual([0, 0, 0]);
      else {
        expect(Math.abs(mu - expected[input].mu)).toBeLessThanOrEqual(room + 1e-12);
        expect(Math.abs(muStar - expected[input].mu_star)).toBeLessThanOrEqual(room + 1e-12);
      }
    });
  });

  it('leave out the effects beside a point that is none', () => {
    const walk = { start: [0, 0, 0], moves: [1, 1, 1], order: [2, 0, 1] };
    const values = pointsAlong(walk).map((point) =>
      point[2] === 1 && point[0] === 0 ? null : [point[0] + 2 * point[1]],
    );
    const effects = effectsAlong(walk, values);
    expect(effects).toEqual([{ input: 1, values: [2] }]);
  });
});
