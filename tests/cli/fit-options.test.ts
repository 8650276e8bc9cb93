import { expect, it } from 'vitest';
import { Failure } from '../../src/cli/failure.js';
import { readFitOptions } from '../../src/cli/fit-options.js';

it('reads what the options of fit say of a log', () => {
  const { log, laws, units } = readFitOptions({
    tip: ['old = sharp', 'spare='],
    column: ['ended=Why'],
    unit: ['path=mm'],
    law: ['breakage=Weibull'],
    per: ['fouling=hour'],
  });
  expect([...log.kinds]).toEqual([
    ['old', 'sharp'],
    ['spare', ''],
  ]);
  expect([...log.columns, ...log.units]).toEqual([
    ['ended', 'Why'],
    ['path', 'mm'],
  ]);
  expect([...laws, ...units]).toEqual([
    ['breakage', 'weibull'],
    ['fouling', 'hour'],
  ]);
});

it.each([
  ['a cause that there is not', { law: ['brakage=gamma'] }, 'did you mean `breakage`'],
  ['a law that there is not', { law: ['breakage=gama'] }, 'did you mean `gamma`'],
  ['a unit that there is not', { per: ['breakage=imagse'] }, 'did you mean `image`'],
  ['a date in another form', { date: '17.5.2031' }, 'year-month-day'],
  ['a date that no calendar has', { date: '2031-02-30' }, 'year-month-day'],
  ['a pair without its second half', { column: ['ended'] }, '--column wants NAME=HEAD, not "ended"'],
  ['two names for every tip', { tip: ['sharp', 'blunt'] }, 'so it stands once'],
])('refuses %s, and says what to write', (_, given, message) => {
  expect(() => readFitOptions(given)).toThrow(Failure);
  expect(() => readFitOptions(given)).toThrow(message);
});
