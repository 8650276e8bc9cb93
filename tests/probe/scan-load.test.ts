import { describe, expect, it } from 'vitest';
import { exposurePerScan, pathOf, scanTimeOf, speedOf } from '../../src/probe/scan-load.js';
import { EXPOSURE_UNITS, type ExposureUnit, type Hazard } from '../../src/probe/settings.js';

const pass = { size: 1000, lines: 512, lineRate: 2, load: 3 };

it('a scan takes its lines at the line rate, over trace and retrace, as fast as its pace', () => {
  expect(scanTimeOf(pass, 1)).toBe(256);
  expect(scanTimeOf(pass, 4)).toBe(64);
  // 512 lines of 1 µm there and back.
  expect(pathOf(pass)).toBeCloseTo(1.024, 12);
  expect(speedOf(pass, 1)).toBe(4000);
  expect(speedOf(pass, 4)).toBe(16_000);
});

describe('the use that a scan makes of a life', () => {
  const scan = { pass: 0, scanTime: 1800, path: 0.7, load: 6 };
  const hazard = (per: ExposureUnit, exponents: Partial<Hazard['acceleration']> = {}): Hazard => ({
    ...{ cause: 'breakage', per, life: { distribution: 'exponential', mean: 1 } },
    acceleration: { pace: 0, load: 0, referenceLoad: 3, ...exponents },
  });
  const pace = { scan: 2, hands: 3, wait: 1 };

  it.each([
    ['image', 1],
    ['approach', 1],
    ['distance', 0.7],
    ['hour', 0.5],
  ] as const)('is counted by %s', (per, used) => {
    expect(exposurePerScan(hazard(per), scan, pace)).toBeCloseTo(used, 12);
  });

  it('grows by the powers of pace and load, and by that of haste at the hands only where it is an approach', () => {
    const exponents = { pace: 3, load: 2, hands: 2 };
    const factors = EXPOSURE_UNITS.map(
      (per) => exposurePerScan(hazard(per, exponents), scan, pace) / exposurePerScan(hazard(per), scan, pace),
    );
    const usual = 2 ** 3 * 2 ** 2;
    expect(EXPOSURE_UNITS).toEqual(['image', 'distance', 'hour', 'approach']);
    [usual, usual, usual, usual * 3 ** 2].forEach((factor, unit) => {
      expect(factors[unit]).toBeCloseTo(factor, 9);
    });
    expect(exposurePerScan(hazard('approach', { pace: 1 }), scan, pace)).toBeCloseTo(2, 12);
  });
});
