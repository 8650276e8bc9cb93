import { describe, expect, it } from 'vitest';
import { lognormalAt, normalQuantile } from '../../src/chance/normal.js';
import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { missingVolumeFactor } from '../../src/probe/blunting.js';
import { fitWear, type WearFit, type WearReading } from '../../src/survival/wear.js';
import { type Reading, tipLogLikelihood } from '../../src/survival/wear-likelihood.js';
import { nonEmpty } from '../support/non-empty.js';

const MISSING_VOLUME = missingVolumeFactor(20);

/** Tips read new and after two slides at 2 nN, by instruments that err by a twentieth. */
function readings(tips: number, wearGeometricSd: number, seed: string): WearReading[] {
  const table = new LuckTable(seed);
  return Array.from({ length: tips }, (_, tip) => {
    const luck = table.replication(tip);
    const uniform = (index: number) => luck.uniform(PURPOSES.wear, 0, 0, 0, index);
    const radius = lognormalAt(8, 1.2, uniform(0));
    const wear = lognormalAt(83, wearGeometricSd, uniform(1));
    return [0, 50, 200].map((path, i): WearReading => {
      const true_ = Math.cbrt(radius ** 3 + (wear * 2 * path) / MISSING_VOLUME);
      const error = 0.05 * true_;
      return { tip: `t${tip}`, path, load: 2, radius: true_ + error * normalQuantile(uniform(2 + i)), error };
    });
  }).flat();
}

function fitted(rows: readonly WearReading[]): WearFit {
  const fit = fitWear(rows, MISSING_VOLUME, 0.95);
  if (!fit.converged) throw new Error(fit.reason);
  return fit;
}

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
  it('gives back what tips were made with', () => {
    const { parameters, free, covariance, tips } = fitted(readings(25, 1.5, 'wear'));
    expect(tips).toBe(25);
    expect(parameters.map(({ name }) => name)).toEqual(['radius', 'radiusGeometricSd', 'wear', 'wearGeometricSd']);
    const truth = [Math.log(8), Math.log(Math.log(1.2)), Math.log(83), Math.log(Math.log(1.5))];
    // One made table with a fixed seed; 5.5 standard errors are passed by chance less than once in a million for four values.
    truth.forEach((value, i) => {
      expect(Math.abs(free[i] - value) / Math.sqrt(covariance[i][i]), parameters[i].name).toBeLessThan(5.5);
    });
    for (const { value, low, high } of nonEmpty(parameters)) {
      expect(low ?? 0).toBeLessThan(value);
      expect(high ?? Infinity).toBeGreaterThan(value);
    }
  });

  it('says 1 where the tips differ by no more than the readings err', () => {
    const { parameters, covariance } = fitted(readings(12, 1, 'no spread 3'));
    const [, , , wearGeometricSd] = parameters;
    expect(wearGeometricSd).toMatchObject({ value: 1, low: 1 });
    expect(wearGeometricSd.high).toBeGreaterThan(1);
    expect(covariance[3]).toEqual([0, 0, 0, 0]);
  });

  it('is as wide where a spread is just none as where it is just some, and no less certain than its upper end says', () => {
    // New tips that lie so many reading errors of 0.4 nm apart, and end within 0.1 %.
    const apart = (errors: number) =>
      [-1, 0, 1].flatMap((side): readonly WearReading[] => [
        { tip: `t${side}`, path: 0, load: 2, radius: 8 * Math.exp(side * errors * 0.05), error: 0.4 },
        { tip: `t${side}`, path: 50, load: 2, radius: 20 + 0.02 * side, error: 1 },
      ]);
    const fits = [1.15, 1.2, 1.25, 1.3, 1.35].map((errors) => fitted(apart(errors)));
    const of = ({ parameters }: WearFit, name: string) => parameters.find((each) => each.name === name);
    // Both sides of the step are met.
    expect(of(fits[0], 'radiusGeometricSd')?.value).toBe(1);
    expect(of(fits[4], 'radiusGeometricSd')?.value).toBeGreaterThan(1.01);
    for (const [place, fit] of nonEmpty(fits.slice(1).entries())) {
      const [before, now] = [fits[place], fit].map((each) => of(each, 'radius'));
      const width = (found: typeof now) => (found?.high ?? NaN) - (found?.low ?? NaN);
      expect(width(now) / width(before)).toBeGreaterThan(0.98);
      expect(width(now) / width(before)).toBeLessThan(1.08);
      const { free, covariance } = fit;
      const spread = of(fit, 'radiusGeometricSd');
      if (spread === undefined || spread.value === 1) continue;
      // 97.5 % of what is drawn on the scale of the fit lies below the end of the interval.
      const drawn = Math.exp(Math.exp(free[1] + 1.959964 * Math.sqrt(covariance[1][1])));
      expect(spread.low).toBe(1);
      expect(drawn / (spread.high ?? NaN)).toBeCloseTo(1, 4);
    }
  });

  it('says why there is none', () => {
    const rows = readings(3, 1.5, 'few');
    expect(fitWear(rows.slice(0, 6), MISSING_VOLUME, 0.95)).toMatchObject({ reason: 'too-few-tips', tips: 2 });
    const fresh = rows.map((row) => ({ ...row, path: 0 }));
    expect(fitWear(fresh, MISSING_VOLUME, 0.95)).toMatchObject({ converged: false, reason: 'no-wear-seen' });
    expect(() => fitWear([{ ...rows[0], error: 0 }], MISSING_VOLUME, 0.95)).toThrow('reading 0 is none');
  });
});
