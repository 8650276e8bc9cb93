import { describe, expect, it } from 'vitest';
import {
  calendarScale,
  durationText,
  estimateLine,
  estimateText,
  fixed,
  numberText,
  PLAIN,
  roundedUp,
  SHARE,
  workScale,
} from '../../src/wording/numbers.js';

const plain = (text: string): string => text.replace(/[\u00a0\u202f]/g, ' ').replaceAll('\u2212', '-');

describe('an estimate', () => {
  it('has as many decimals as its interval leaves meaningful', () => {
    expect(plain(estimateLine({ value: 41.2345, low: 40.8, high: 41.7 }, PLAIN))).toBe('41.2 (40.8 to 41.7)');
    expect(plain(estimateLine({ value: 41.2345, low: 41.1, high: 41.3469 }, PLAIN))).toBe('41.23 (41.10 to 41.35)');
    expect(plain(estimateLine({ value: 1475.3, low: 1440, high: 1510 }, { divisor: 1, unit: 'EUR' }))).toBe(
      '1475 EUR (1440 to 1510)',
    );
  });

  it('without width shows no interval', () => {
    expect(estimateText({ value: 3, low: 3, high: 3 }, PLAIN)).toEqual({ value: '3', interval: '' });
    expect(plain(estimateText({ value: 3600, low: 3600, high: 3600 }, workScale(36_000)).value)).toBe('1 h');
  });

  it('reads as nothing where it is next to nothing', () => {
    for (const value of [1e-323, 1e-120, 1e-13])
      expect(estimateText({ value, low: value, high: value }, PLAIN)).toEqual({ value: '0', interval: '' });
    expect(estimateText({ value: 1e-6, low: 1e-6, high: 1e-6 }, PLAIN).value).toBe('0.00000100');
  });

  it('of a difference carries its sign, and none where it rounds to nothing', () => {
    expect(plain(estimateLine({ value: 0.02, low: 0.01, high: 0.03 }, SHARE, 'difference'))).toBe(
      '+2.0 % (+1.0 to +3.0)',
    );
    expect(plain(estimateText({ value: -0.0001, low: -0.01, high: 0.0098 }, SHARE, 'difference').value)).toBe('0.0 %');
  });
});

describe('a number', () => {
  it('is grouped from five digits on and has a true minus', () => {
    expect(fixed(-1234567.4, 1)).toBe('\u22121\u202f234\u202f567.4');
    expect(fixed(1234, 0)).toBe('1234');
  });

  it('alone has three significant digits', () => {
    expect(numberText(0.012345)).toBe('0.0123');
    expect(numberText(98.44)).toBe('98.4');
    expect(numberText(48)).toBe('48');
  });
});

describe('a difference that is told apart', () => {
  it('never has an end of its interval that reads as zero', () => {
    const told = { value: 0.0062, low: 0.0002, high: 0.0122 };
    expect(plain(estimateLine(told, SHARE, 'difference'))).toBe('+0.62 % (+0.02 to +1.22)');
    const hidden = { value: 0.0062, low: -0.0002, high: 0.0126 };
    expect(plain(estimateLine(hidden, SHARE, 'difference'))).toBe('+0.6 % (0.0 to +1.3)');
  });
});

describe('a time', () => {
  it('is said as people say it', () => {
    expect([42, 720, 12_000, 187_200].map((time) => plain(durationText(time)))).toEqual([
      '42 s',
      '12 min',
      '3 h 20 min',
      '2 d 4 h',
    ]);
  });

  it('is work in hours however long, and days on the calendar', () => {
    expect(workScale(1_000_000).unit).toBe('h');
    expect(calendarScale(1_000_000).unit).toBe('d');
    expect(workScale(600).unit).toBe('min');
  });
});

describe('a least number that would do', () => {
  it.each([
    [39.0625, 40],
    [78.125, 79],
    [40, 40],
    [99.1, 100],
    [0.0711, 0.072],
    [1234, 1300],
  ])('has two digits and is not less: of %d it is %d', (value, rounded) => {
    expect(roundedUp(value)).toBe(rounded);
  });
});
