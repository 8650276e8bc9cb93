import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Dimension, DIMENSIONS, formatQuantity, readQuantity } from '../../src/scenario/quantity.js';
import { readMoney } from '../../src/scenario/money.js';

const read: readonly (readonly [Dimension, string, number])[] = [
  ['time', '10 min', 600],
  ['time', '0.1 h', 360],
  ['time', '3 d', 259_200],
  ['time', '2 weeks', 1_209_600],
  ['time', '1 day', 86_400],
  ['time', '90s', 90],
  ['time', '1e2 ms', 0.1],
  ['length', '25 um', 25_000],
  ['length', '25 \u00B5m', 25_000],
  ['length', '25 \u03BCm', 25_000],
  ['length', '.5 nm', 0.5],
  ['length', '3 \u00C5', 0.3],
  ['path', '0.8 mm', 0.8],
  ['path', '5 m', 5000],
  ['force', '20 nN', 20],
  ['force', '300 pN', 0.3],
  ['frequency', '1.5 Hz', 1.5],
  ['frequency', '2 kHz', 2000],
  ['angle', '20 deg', 20],
  ['angle', '20\u00B0', 20],
  ['pressure', '12 GPa', 12],
  ['mass', '4.7 ng', 4.7],
  ['wear', '83 nm3/(nN mm)', 83],
  ['wear', '8.3e-14 m2/N', 83],
  ['wear', '8.3e-5 mm3/(N m)', 83],
  ['wear', '8.3e-5 mm\u00B3/(N\u00B7m)', 83],
];

const refused: readonly (readonly [Dimension, string, string])[] = [
  ['time', '10', 'read `10`, which has no unit; a time such as `10 min` is wanted'],
  ['time', '5 m', 'read `5 m`, whose unit `m` does not measure a time; a time such as `10 min` is wanted'],
  ['time', '5 M', 'does not measure a time'],
  ['time', 'min', 'read `min`, which does not begin with a number; a time such as `10 min` is wanted'],
  ['time', '', 'read ``, which does not begin with a number'],
  ['time', '1,5 h', 'where the decimal sign must be a point'],
  ['time', '1e400 s', 'too large to be meant'],
  ['time', '1e10 weeks', 'too large to be meant'],
  ['time', 'NaN s', 'does not begin with a number'],
  ['time', 'Infinity s', 'does not begin with a number'],
  ['time', '5 s s', 'does not measure a time'],
  ['length', '5 minutes', 'whose unit `minutes` does not measure a length; a length such as `25 um` is wanted'],
  ['length', '5 parsnips', 'whose unit `parsnips` is not known'],
  ['length', '5 um2', 'does not measure a length'],
  ['length', '5 3 nm', 'whose unit `3 nm` is not known'],
  ['force', '20 nm', 'does not measure a force; a force such as `20 nN` is wanted'],
  ['wear', '83 nm3', 'does not measure a wear coefficient; a wear coefficient such as `83 nm3/(nN mm)` is wanted'],
  ['time', `${'9'.repeat(200)} s`, 'does not begin with a number'],
];

describe('quantities', () => {
  it.each(read)('reads a %s from %s', (dimension, text, value) => {
    expect(readQuantity(dimension, text)).toEqual({ ok: true, value });
  });

  it.each(refused)('refuses for a %s: %s', (dimension, text, message) => {
    const reading = readQuantity(dimension, text);
    expect(reading.ok ? reading.value : reading.message).toContain(message);
  });

  it('writes every value so that it reads the same value again, to the six digits written', () => {
    const dimensions = fc.constantFrom<Dimension>(
      'time',
      'length',
      'path',
      'force',
      'frequency',
      'angle',
      'pressure',
      'mass',
      'wear',
    );
    const magnitudes = fc.double({ min: 1e-6, max: 1e12, noNaN: true });
    fc.assert(
      fc.property(dimensions, magnitudes, (dimension, value) => {
        const reading = readQuantity(dimension, formatQuantity(dimension, value));
        expect(reading.ok ? reading.value / value : reading.message).toBeCloseTo(1, 5);
      }),
      { seed: 11, numRuns: 400 },
    );
  });

  it('reads what every dimension gives as its example', () => {
    for (const dimension of [
      'time',
      'length',
      'path',
      'force',
      'frequency',
      'angle',
      'pressure',
      'mass',
      'wear',
    ] as const) {
      expect(readQuantity(dimension, DIMENSIONS[dimension].example).ok).toBe(true);
    }
  });

  it('undoes the last-bit noise of conversion: a tenth of a unit is exactly a tenth of what it converts to', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 100_000 }), (tenths) => {
        expect(readQuantity('time', `${tenths / 10} h`)).toEqual({ ok: true, value: tenths * 360 });
        expect(readQuantity('length', `${tenths / 1000} mm`)).toEqual({ ok: true, value: tenths * 1000 });
      }),
      { seed: 12, numRuns: 300 },
    );
  });

  it.each([
    [600, '10 min'],
    [90, '1.5 min'],
    [5400, '1.5 h'],
    [0, '0 s'],
    [0.25, '250 ms'],
  ])('writes %d s as %s', (seconds, text) => {
    expect(formatQuantity('time', seconds)).toBe(text);
  });
});

describe('money', () => {
  it('reads an amount with its currency', () => {
    expect(readMoney('30 EUR')).toEqual({ ok: true, value: { amount: 30, currency: 'EUR' } });
    expect(readMoney('0.5 CHF')).toEqual({ ok: true, value: { amount: 0.5, currency: 'CHF' } });
  });

  it.each(['30', 'EUR', '30 euros', '30 \u20AC', '-3 EUR', '1e16 EUR'])(
    'refuses %s with an example of what is wanted',
    (text) => {
      const reading = readMoney(text);
      expect(reading.ok ? '' : reading.message).toContain('`30 EUR` is wanted');
    },
  );
});
