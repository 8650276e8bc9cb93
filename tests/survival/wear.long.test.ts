import { describe, expect, it } from 'vitest';
import type { WearFit, WearReading } from '../../src/survival/wear.js';
import { fittedRadii as fitted, madeRadii as readings } from '../support/made-radii.js';
import { nonEmpty } from '../support/non-empty.js';

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
});
