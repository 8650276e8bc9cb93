import { expect, it } from 'vitest';
import { Failure } from '../../src/scenario/failure.js';
import { FIT_OPTIONS } from '../../src/studies/fit/options.js';
import { valuesOf } from '../../src/studies/options.js';

it('reads what the options of fit say of a log', () => {
  const { tip, column, unit, distribution, per } = valuesOf(FIT_OPTIONS, {
    tip: ['old = sharp', 'spare='],
    column: ['ended=Why'],
    unit: ['path=mm'],
    distribution: ['breakage=Weibull'],
    per: ['fouling=hour'],
  });
  expect([...tip.kinds]).toEqual([
    ['old', 'sharp'],
    ['spare', ''],
  ]);
  expect([...column, ...unit]).toEqual([
    ['ended', 'Why'],
    ['path', 'mm'],
  ]);
  expect([...distribution, ...per]).toEqual([
    ['breakage', 'weibull'],
    ['fouling', 'hour'],
  ]);
});

it.each([
  ['a cause that there is not', { distribution: ['brakage=gamma'] }, 'did you mean `breakage`'],
  ['a distribution that there is not', { distribution: ['breakage=gama'] }, 'did you mean `gamma`'],
  ['a unit that there is not', { per: ['breakage=imagse'] }, 'did you mean `image`'],
  ['a date in another form', { date: ['17.5.2031'] }, 'year-month-day'],
  ['a date that no calendar has', { date: ['2031-02-30'] }, 'year-month-day'],
  ['a pair without its second half', { column: ['ended'] }, '--column wants NAME=HEAD, not "ended"'],
  ['two names for every tip', { tip: ['sharp', 'blunt'] }, 'so it stands once'],
])('refuses %s, and says what to write', (_, given, message) => {
  expect(() => valuesOf(FIT_OPTIONS, given)).toThrow(Failure);
  expect(() => valuesOf(FIT_OPTIONS, given)).toThrow(message);
});
