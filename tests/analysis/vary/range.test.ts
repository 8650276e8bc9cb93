import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { between, numbersOf, readRange, type Span } from '../../../src/analysis/vary/range.js';
import { nonEmpty } from '../../support/non-empty.js';

function spanOf(text: string): Span {
  const reading = readRange(text);
  const part = reading.ok ? reading.value[0] : null;
  if (part === null || !('span' in part)) throw new Error(`no span: ${text}`);
  return part.span;
}

describe('a range as it is typed', () => {
  it.each([
    ['5..60', { low: 5, high: 60, unit: '', step: null, count: null, isLog: false }],
    ['5..60 images by 5', { low: 5, high: 60, unit: 'images', step: 5, count: null, isLog: false }],
    ['5 min .. 60 min by 5 min', { low: 5, high: 60, unit: 'min', step: 5, count: null, isLog: false }],
    ['0.1..10 in 5 log', { low: 0.1, high: 10, unit: '', step: null, count: 5, isLog: true }],
    ['-1e-3..2 in 3', { low: -0.001, high: 2, unit: '', step: null, count: 3, isLog: false }],
  ])('%s is read as a span', (text, span) => {
    expect(spanOf(text)).toEqual(span);
  });

  it('may be single settings, none among them', () => {
    const reading = readRange('5 images, none, 7, true, region-first');
    expect(reading.ok ? reading.value : []).toEqual([
      { single: '5 images' },
      { single: null },
      { single: 7 },
      { single: true },
      { single: 'region-first' },
    ]);
  });

  it.each([
    ['9..5', /first end must be less than its second/],
    ['5 min..1 h', /two units; write both in `h`/],
    ['5..9 by -1', /step must be a number above zero/],
    ['5..9 by 1 km', /step must be a number above zero/],
    ['5..9 in 1', /count must be from 2/],
    ['5..9 in 999999999', /count must be from 2 to 1000$/],
    ['0..9 in 5 log', /ends must be above zero/],
    ['a..b', /both ends must be numbers/],
    ['0..1 by 0.0001', /more than 1000 steps/],
    ['1,,2', /nothing is written between two commas/],
  ])('%s is refused with what is wrong', (text, message) => {
    const reading = readRange(text);
    expect(reading.ok ? '' : reading.message).toMatch(message);
  });
});

/** Ends, a count and a kind of spacing. */
const spans = fc
  .record({
    low: fc.integer({ min: 1, max: 500 }),
    width: fc.integer({ min: 1, max: 500 }),
    count: fc.integer({ min: 2, max: 40 }),
    isLog: fc.boolean(),
  })
  .map(({ low, width, count, isLog }): Span => ({ low, high: low + width, unit: '', step: null, count, isLog }));

describe('the numbers of a span', () => {
  it('ascend from end to end, as many as asked for; whole ones are whole and none comes twice', () => {
    fc.assert(
      fc.property(spans, (span) => {
        const numbers = numbersOf(span, false);
        expect(numbers).toHaveLength(span.count ?? 0);
        expect([numbers[0], numbers[numbers.length - 1]]).toEqual([span.low, span.high]);
        for (let place = 1; place < numbers.length; place += 1)
          expect(numbers[place]).toBeGreaterThan(numbers[place - 1]);
        const whole = numbersOf(span, true);
        expect(nonEmpty(whole).every(Number.isInteger)).toBe(true);
        expect(new Set(whole).size).toBe(whole.length);
        expect([whole[0], whole[whole.length - 1]]).toEqual([span.low, span.high]);
      }),
      { seed: 1, numRuns: 200 },
    );
  });

  it('keep equal distances, or equal ratios', () => {
    expect(numbersOf(spanOf('0..1 in 5'), false)).toEqual([0, 0.25, 0.5, 0.75, 1]);
    const ratios = numbersOf(spanOf('1..16 in 5 log'), false);
    for (const [place, number] of nonEmpty(ratios.entries())) expect(number).toBeCloseTo(2 ** place, 12);
    expect(between(1, 100, 0.5, true)).toBeCloseTo(10, 12);
  });

  it('go by their step from the low end, and past no end', () => {
    expect(numbersOf(spanOf('0.1..0.45 by 0.1'), false)).toEqual([0.1, 0.2, 0.3, 0.4]);
    expect(numbersOf(spanOf('5..20 by 5'), true)).toEqual([5, 10, 15, 20]);
  });

  it('are all whole ones where these are few, else eleven', () => {
    expect(numbersOf(spanOf('2..6'), true)).toEqual([2, 3, 4, 5, 6]);
    expect(numbersOf(spanOf('1..1001'), true)).toHaveLength(11);
    expect(numbersOf(spanOf('0..1'), false)).toHaveLength(11);
  });
});
