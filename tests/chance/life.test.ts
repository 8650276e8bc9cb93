import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  compileLife,
  declaredOf,
  isLife,
  type Life,
  type LifeDistribution,
  parametersOf,
} from '../../src/chance/life.js';
import { additiveWeibull } from '../../src/chance/life/bathtub.js';
import { solveIncreasing } from '../../src/chance/life/solve.js';
import { departure } from '../support/check-values.js';
import { nonEmpty } from '../support/non-empty.js';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const shape = between(0.3, 12);
const scale = between(1e-3, 1e6);
const term = fc.record({ shape, scale });

const distributions: Record<Life['distribution'], fc.Arbitrary<Life>> = {
  exponential: fc.record({ distribution: fc.constant('exponential'), mean: scale }),
  weibull: fc.record({ distribution: fc.constant('weibull'), shape, scale }),
  lognormal: fc.record({ distribution: fc.constant('lognormal'), median: scale, geometricSd: between(1.05, 20) }),
  gamma: fc.record({ distribution: fc.constant('gamma'), shape, scale }),
  bathtub: fc.record({ distribution: fc.constant('bathtub'), early: term, late: term }),
  // Of lower shape lives of so great a hazard would be beyond all numbers.
  'log-logistic': fc.record({ distribution: fc.constant('log-logistic'), median: scale, shape: between(3, 12) }),
  probability: fc.record({ distribution: fc.constant('probability'), perUnit: between(1e-6, 0.999) }),
};

/** From lives that end almost at once to the hundredth chip of a tip; logarithmic. */
const hazard = between(-12, 3.3).map((digits) => 10 ** digits);
const RUNS = { seed: 4, numRuns: 300 };

describe.each(Object.entries(distributions))('a life: %s', (_, arbitrary) => {
  const property = (check: (distribution: LifeDistribution, one: number, other: number) => void) => {
    fc.assert(
      fc.property(arbitrary, hazard, hazard, (life, one, other) => {
        check(compileLife(life), one, other);
      }),
      RUNS,
    );
  };

  it('has used no hazard at no exposure', () => {
    property((distribution) => {
      expect(distribution.cumulativeHazard(0)).toBe(0);
      expect(distribution.exposureAt(0)).toBe(0);
    });
  });

  it('reaches each hazard exactly where its inverse says', () => {
    property((distribution, h) => {
      expect(departure(distribution.cumulativeHazard(distribution.exposureAt(h)), h)).toBeLessThan(1e-11);
    });
  });

  it('never loses hazard as exposure grows, nor exposure as hazard grows', () => {
    property((distribution, one, other) => {
      const [least, most] = [Math.min(one, other), Math.max(one, other)];
      fc.pre(least < most * (1 - 1e-12));
      const [early, late] = [distribution.exposureAt(least), distribution.exposureAt(most)];
      expect(early).toBeLessThanOrEqual(late);
      expect(distribution.cumulativeHazard(early)).toBeLessThanOrEqual(distribution.cumulativeHazard(late));
      expect(Number.isFinite(late)).toBe(true);
    });
  });
});

describe('the distributions of life', () => {
  it('never end at probability 0, at once at probability 1, and each unit alike in between', () => {
    const [never, atOnce, each] = [0, 1, 0.25].map((perUnit) => compileLife({ distribution: 'probability', perUnit }));
    expect(never.exposureAt(1e-300)).toBe(Infinity);
    expect(never.cumulativeHazard(1e9)).toBe(0);
    expect(atOnce.exposureAt(5)).toBe(0);
    expect(atOnce.cumulativeHazard(0)).toBe(0);
    expect(atOnce.cumulativeHazard(1e-9)).toBe(Infinity);
    expect(Math.exp(-each.cumulativeHazard(3))).toBeCloseTo(0.75 ** 3, 15);
  });

  it('agree where one is a case of another', () => {
    const exponential = compileLife({ distribution: 'exponential', mean: 7 });
    const same: Life[] = [
      { distribution: 'weibull', shape: 1, scale: 7 },
      { distribution: 'gamma', shape: 1, scale: 7 },
      { distribution: 'probability', perUnit: -Math.expm1(-1 / 7) },
      { distribution: 'bathtub', early: { shape: 1, scale: 14 }, late: { shape: 1, scale: 14 } },
    ];
    for (const life of nonEmpty(same)) {
      for (const h of [1e-12, 1e-4, 0.5, 3, 29.9, 30.1, 400, 2000]) {
        expect(departure(compileLife(life).exposureAt(h), exponential.exposureAt(h)), life.distribution).toBeLessThan(
          1e-14,
        );
      }
    }
  });

  it('have the closed form of a gamma life of shape 2 and 3, near and far', () => {
    const two = compileLife({ distribution: 'gamma', shape: 2, scale: 1 });
    const three = compileLife({ distribution: 'gamma', shape: 3, scale: 1 });
    for (const x of [1, 10, 30, 33, 36, 40, 100, 700, 800, 5000]) {
      expect(departure(two.cumulativeHazard(x), x - Math.log1p(x))).toBeLessThan(1e-13);
      expect(departure(three.cumulativeHazard(x), x - Math.log1p(x + (x * x) / 2))).toBeLessThan(1e-13);
    }
  });

  // -ln of the upper tail of the normal distribution, computed with mpmath at 50 digits.
  it.each([
    [-7, 1.279812543886654e-12],
    [-1, 0.17275377902344988],
    [0.5, 1.1759117615936185],
    [5, 15.064998393988725],
    [20, 203.91715537109727],
    [29.9, 451.3229124585286],
    [30.1, 457.32956441638225],
    [40, 804.6084420137538],
    [60, 1805.013560680567],
  ])('have the tail of a lognormal life at %d standard deviations', (z, h) => {
    const distribution = compileLife({ distribution: 'lognormal', median: 1, geometricSd: Math.E });
    expect(departure(distribution.cumulativeHazard(Math.exp(z)), h)).toBeLessThan(1e-13);
    expect(departure(Math.log(distribution.exposureAt(h)), z)).toBeLessThan(1e-13);
  });

  it('add up the hazards of any number of terms', () => {
    const terms = [0.5, 1, 4].map((power, i) => ({ shape: power, scale: 10 * (i + 1) }));
    const x = additiveWeibull(terms).exposureAt(2);
    expect(departure(Math.sqrt(x / 10) + x / 20 + (x / 30) ** 4, 2)).toBeLessThan(1e-14);
  });
});

describe('what a fit takes of a distribution', () => {
  const lives = [
    ['exponential', { mean: 40 }],
    ['weibull', { shape: 1.7, scale: 60 }],
    ['lognormal', { median: 30, geometricSd: 1.9 }],
    ['gamma', { shape: 2.4, scale: 15 }],
  ] as const;
  const known = lives.map(([name, values]) => {
    const declared = declaredOf(name);
    const { fit } = declared;
    if (fit === undefined) throw new Error(name);
    return [name, { values, fit, declared, life: declared.compile(values) }] as const;
  });
  /** The middles of many equal shares of all lives. */
  const SHARES = Array.from({ length: 20_000 }, (_, i) => -Math.log((i + 0.5) / 20_000));
  const average = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

  it.each(known)('has the density that its hazard makes: %s', (_, { values, fit, life }) => {
    const logDensity = fit.logDensity(values);
    for (const x of [2, 11, 35, 90]) {
      const step = 1e-4 * x;
      const slope = (life.cumulativeHazard(x + step) - life.cumulativeHazard(x - step)) / (2 * step);
      expect(departure(Math.exp(logDensity(x)), slope * Math.exp(-life.cumulativeHazard(x)))).toBeLessThan(1e-6);
    }
  });

  it.each(known)('has the mean of its lives: %s', (_, { values, fit, life }) => {
    expect(departure(fit.mean(values), average(SHARES.map((hazard) => life.exposureAt(hazard))))).toBeLessThan(2e-3);
  });

  it.each(known)('starts near the life whose logarithm has that mean and scatter: %s', (name, { fit, declared }) => {
    for (const [logMean, logSd] of [
      [2, 0.4],
      [-3, 0.8],
    ]) {
      const life = declared.compile(fit.start(logMean, logSd));
      const logs = SHARES.map((hazard) => Math.log(life.exposureAt(hazard)));
      const mean = average(logs);
      // Of the gamma distribution near is a few hundredths; an exponential one has one scatter only.
      expect(Math.abs(mean - logMean)).toBeLessThan(0.05);
      if (name === 'exponential') continue;
      expect(departure(Math.sqrt(average(logs.map((each) => (each - mean) ** 2))), logSd)).toBeLessThan(0.05);
    }
  });
});

describe('a record', () => {
  const bathtub = { distribution: 'bathtub', early: { shape: 0.5, scale: 9 }, late: { shape: 3, scale: 70 } } as const;

  it('is a life where it has the name of a distribution and all of its numbers', () => {
    expect(isLife({ ...{ distribution: 'weibull', shape: 2, scale: 9 } })).toBe(true);
    expect(isLife(bathtub)).toBe(true);
    const others = [
      { distribution: 'weibull' },
      { distribution: 'weibull', shape: 2 },
      { distribution: 'weibull', shape: 2, scale: '9' },
      { distribution: 'toString' },
      { ...bathtub, late: null },
      { ...bathtub, late: 5 },
      { ...bathtub, late: { shape: 3 } },
      { distribution: 'bathtub' },
    ];
    for (const other of nonEmpty(others)) expect(isLife(other), JSON.stringify(other)).toBe(false);
  });

  it('tells its numbers with the keys that lead to each', () => {
    expect(parametersOf(bathtub).map(({ at, value }) => [at.join('.'), value])).toEqual([
      ['early.shape', 0.5],
      ['early.scale', 9],
      ['late.shape', 3],
      ['late.scale', 70],
    ]);
  });
});

describe('the solver', () => {
  it('finds the root to the last bits, by halving where a Newton step would leave the bracket', () => {
    const cube = (x: number) => (x - 1) ** 3 + 1;
    const root = solveIncreasing(cube, (x) => 3 * (x - 1) ** 2, 9, 0, 1000);
    expect(departure(root, 3)).toBeLessThan(3e-16);
    const flat = (x: number) => Math.min(x, 1) + Math.max(0, x - 5);
    expect(solveIncreasing(flat, (x) => (x < 1 || x > 5 ? 1 : 0), 1.5, 0, 100)).toBeCloseTo(5.5, 14);
  });

  it('says so if there is no root to find', () => {
    expect(() =>
      solveIncreasing(
        () => NaN,
        () => NaN,
        1,
        0,
        Infinity,
      ),
    ).toThrow('no exposure found');
  });
});
