import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { WEEK } from '../../src/kernel/hours.js';
import { hoursText, momentText, readHours } from '../../src/scenario/hours.js';
import { allocationText, readExposure, useLimitText } from '../../src/scenario/exposure.js';
import { nonEmpty } from '../support/non-empty.js';

const HOUR = 3_600_000_000;
const DAY = 24 * HOUR;
/** Spans in hours from Monday 00:00. */
function inHours(text: string): readonly (readonly [number, number])[] | string {
  const reading = readHours(text);
  return reading.ok ? reading.value.map(({ from, to }) => [from / HOUR, to / HOUR] as const) : reading.message;
}

describe('weekly hours', () => {
  it.each<readonly [string, readonly (readonly [number, number])[]]>([
    ['Mo 09:00-17:00', [[9, 17]]],
    [
      'Mo-We 09:00-17:00',
      [
        [9, 17],
        [33, 41],
        [57, 65],
      ],
    ],
    [
      'Mo,We 08:00-12:00,13:00-17:00',
      [
        [8, 12],
        [56, 60],
        [13, 17],
        [61, 65],
      ],
    ],
    ['Fr 22:00-06:00', [[118, 126]]],
    ['Su 22:00-06:00', [[166, 174]]],
    [
      'Sa-Mo 10:00-11:00',
      [
        [130, 131],
        [154, 155],
        [10, 11],
      ],
    ],
    ['Tu 00:00-24:00', [[24, 48]]],
    [
      'Mo 9:00-10:30; Tu 09:00-10:00',
      [
        [9, 10.5],
        [33, 34],
      ],
    ],
    [
      'Mo 09:00-10:00, Tu 09:00-10:00',
      [
        [9, 10],
        [33, 34],
      ],
    ],
    ['always', [[0, 168]]],
  ])('reads %s', (text, spans) => {
    expect(inHours(text)).toEqual(spans);
  });

  it.each([
    ['', 'weekly hours such as'],
    ['Mo', 'weekly hours such as'],
    ['Mo-Fri 09:00-17:00', 'whose days are not among'],
    ['Mon 09:00-17:00', 'whose days are not among'],
    ['Mo 09:00-09:00', 'has no length'],
    ['Mo 09:00-25:00', 'not between 00:00 and 24:00'],
    ['Mo 09:60-10:00', 'not between 00:00 and 24:00'],
    ['Mo 9-17', 'weekly hours such as'],
    ['never', 'weekly hours such as'],
    ['Mo 09:00-17:00;', 'weekly hours such as'],
  ])('refuses %s and says what is wanted', (text, message) => {
    expect(inHours(text)).toContain(message);
  });

  it('reads a list of texts as one', () => {
    expect(hoursText().parse(['Mo 09:00-10:00', 'Tu 09:00-10:00'])).toEqual(
      hoursText().parse('Mo 09:00-10:00; Tu 09:00-10:00'),
    );
    expect(hoursText().safeParse([]).success).toBe(false);
  });

  it('reads moments of the week, the end of Sunday being the beginning of Monday', () => {
    expect(momentText().parse('Mo 00:00')).toBe(0);
    expect(momentText().parse('We 09:30')).toBe(2 * DAY + 9.5 * HOUR);
    expect(momentText().parse('Su 24:00')).toBe(0);
    expect(momentText().parse('Su 23:59')).toBeLessThan(WEEK);
    for (const wrong of ['Monday', 'Mo', '09:00', 'Mo 25:00', 'Xx 09:00'])
      expect(momentText().safeParse(wrong).success).toBe(false);
  });
});

describe('amounts of exposure', () => {
  it.each([
    ['image', 200, 200],
    ['image', '200 images', 200],
    ['approach', '500 approaches', 500],
    ['distance', '80 mm', 80],
    ['distance', '1.2 m', 1200],
    ['hour', '30 h', 30],
    ['hour', '90 min', 1.5],
  ] as const)('counted per %s, %s is %d', (unit, written, value) => {
    expect(readExposure(unit, written)).toEqual({ ok: true, value });
  });

  it.each([
    ['distance', 80, 'read `80`, which has no unit; as this is counted per distance, `80 mm` or the like is wanted'],
    ['hour', 30, '`30 h` or the like is wanted'],
    ['distance', '30 h', 'does not measure a path'],
    ['hour', '80 mm', 'does not measure a time'],
    ['image', '80 mm', 'as this is counted per image, a number such as `200` is wanted'],
    ['image', 0, 'more than zero'],
    ['approach', -1, 'more than zero'],
  ] as const)('counted per %s, %s is refused', (unit, written, message) => {
    const reading = readExposure(unit, written);
    expect(reading.ok ? '' : reading.message).toContain(message);
  });

  it.each([
    ['20 images', { unit: 'image', amount: 20 }],
    ['5 mm', { unit: 'distance', amount: 5 }],
    ['3 h', { unit: 'hour', amount: 3 }],
    ['30 min', { unit: 'hour', amount: 0.5 }],
  ])('a tip may go after %s', (text, limit) => {
    expect(useLimitText().parse(text)).toEqual(limit);
  });

  it.each([
    ['5 sessions', { unit: 'session', amount: 5 }],
    ['1 session', { unit: 'session', amount: 1 }],
    ['40 h', { unit: 'hour', amount: 40 }],
    ['90 min', { unit: 'hour', amount: 1.5 }],
  ])('%s may be granted', (text, granted) => {
    expect(allocationText().parse(text)).toEqual(granted);
  });

  it.each([
    [
      '2 days',
      'read `2 days`; a day may be 24 h or only what is booked of it; write sessions such as `2 sessions`, or hours such as `40 h`',
    ],
    [
      '1 d',
      'read `1 d`; a day may be 24 h or only what is booked of it; write sessions such as `1 session`, or hours such as `40 h`',
    ],
    [
      '2 weeks',
      'read `2 weeks`; a week may be 168 h or only what is booked of it; write sessions such as `5 sessions`, or hours such as `40 h`',
    ],
  ])('%s may not be granted, as it may mean two things', (text, message) => {
    expect(allocationText().safeParse(text).error?.issues[0]?.message).toBe(message);
  });

  it.each<readonly [z.ZodType, readonly unknown[]]>([
    [useLimitText(), [20, '20', '5 kg', 'images', null]],
    [allocationText(), [5, '5', '2.5 sessions', '0 sessions', '5 mm', '0 h']],
  ])('limits without a unit, of a wrong one or of nothing are refused', (schema, texts) => {
    for (const wrong of nonEmpty(texts)) expect(schema.safeParse(wrong).success).toBe(false);
  });
});
