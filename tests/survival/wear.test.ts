import { describe, expect, it } from 'vitest';
import { fitWear } from '../../src/survival/wear.js';
import { type Reading, tipLogLikelihood } from '../../src/survival/wear-likelihood.js';
import { fittedRadii as fitted, MISSING_VOLUME, madeRadii as readings } from '../support/made-radii.js';

describe('the likelihood of a tip', () => {
  const spread = { logRadius: Math.log(8), radiusSd: Math.log(1.2), logWear: Math.log(83), wearSd: Math.log(1.5) };

  /** The same double integral by the trapezoidal rule over ±8 standard deviations. */
  function byTrapezes(rows: readonly Reading[]): number {
    const step = 0.04;
    let sum = 0;
    for (let i = -200; i <= 200; i += 1) {
      for (let j = -200; j <= 200; j += 1) {
        const [x, y] = [i * step, j * step];
        const cube = Math.exp(3 * (spread.logRadius + spread.radiusSd * x));
        const wear = Math.exp(spread.logWear + spread.wearSd * y);
        const log = rows.reduce(
          (all, { growth, radius, error }) => {
            const off = (radius - Math.cbrt(cube + wear * growth)) / error;
            return all - (off * off) / 2 - Math.log(error * Math.sqrt(2 * Math.PI));
          },
          -(x * x + y * y) / 2,
        );
        sum += (Math.exp(log) * step * step) / (2 * Math.PI);
      }
    }
    return Math.log(sum);
  }

  it.each([
    ['read new', [{ growth: 0, radius: 7, error: 0.5 }]],
    ['read worn', [{ growth: 100, radius: 25, error: 1 }]],
    [
      'read three times',
      [
        { growth: 0, radius: 9, error: 0.4 },
        { growth: 10, radius: 13, error: 0.6 },
        { growth: 300, radius: 33, error: 2 },
      ],
    ],
  ])('is the integral over all that it may be: %s', (_, rows) => {
    // Five points a side leave a ten-thousandth, which moves no interval that a deviance of 3.84 sets.
    expect(Math.abs(tipLogLikelihood(rows, spread) - byTrapezes(rows))).toBeLessThan(2e-4);
  });

  it('is that of the reading alone where the reading says nothing', () => {
    const error = 1e6;
    expect(tipLogLikelihood([{ growth: 0, radius: 8, error }], spread)).toBeCloseTo(
      -Math.log(error * Math.sqrt(2 * Math.PI)),
      9,
    );
  });
});

describe('the fit of blunting', () => {
  it('says 1 where the tips differ by no more than the readings err', () => {
    const { parameters, covariance } = fitted(readings(12, 1, 'no spread 3'));
    const [, , , wearGeometricSd] = parameters;
    expect(wearGeometricSd).toMatchObject({ value: 1, low: 1 });
    expect(wearGeometricSd.high).toBeGreaterThan(1);
    expect(covariance[3]).toEqual([0, 0, 0, 0]);
  });

  it('says why there is none', () => {
    const rows = readings(3, 1.5, 'few');
    expect(fitWear(rows.slice(0, 6), MISSING_VOLUME, 0.95)).toMatchObject({ reason: 'too-few-tips', tips: 2 });
    const fresh = rows.map((row) => ({ ...row, path: 0 }));
    expect(fitWear(fresh, MISSING_VOLUME, 0.95)).toMatchObject({ converged: false, reason: 'no-wear-seen' });
    expect(() => fitWear([{ ...rows[0], error: 0 }], MISSING_VOLUME, 0.95)).toThrow('reading 0 is none');
  });
});
