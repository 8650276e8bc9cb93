import { expect, it } from 'vitest';
import { CAUSE_NAMES, isCauseWithSettings } from '../../src/probe/causes.js';
import { nonEmpty } from '../support/non-empty.js';

it('a record is a cause with its settings where all of them are there', () => {
  const sound = [
    { cause: 'breakage' },
    { cause: 'fouling', quality: 0.5, clears: 'never' },
    { cause: 'fouling', quality: 0.5, clears: 3 },
    { cause: 'chipping', radiusFactor: { median: 2, geometricSd: 1.5 } },
  ];
  for (const record of nonEmpty(sound)) expect(isCauseWithSettings(record), JSON.stringify(record)).toBe(true);
  const others = [
    { cause: 'toString' },
    { cause: 'fouling', quality: 0.5 },
    { cause: 'fouling', quality: 'never', clears: 3 },
    { cause: 'fouling', quality: 0.5, clears: 'seldom' },
    { cause: 'chipping' },
    { cause: 'chipping', radiusFactor: null },
    { cause: 'chipping', radiusFactor: 2 },
    { cause: 'chipping', radiusFactor: { median: 2 } },
  ];
  for (const record of nonEmpty(others)) expect(isCauseWithSettings(record), JSON.stringify(record)).toBe(false);
  expect(CAUSE_NAMES).toContain('double-tip');
});
