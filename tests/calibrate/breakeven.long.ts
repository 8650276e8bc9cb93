import { writeFileSync } from 'node:fs';
import { it } from 'vitest';
import { repeatBreakEven } from '../support/known-break-even.js';

/*
 * SEED=… DATE=… npm run calibrate-breakeven
 * 2000 repetitions of the search for a known break-even; the result is recorded for tests/study/breakeven/coverage.test.ts.
 */

it('records how often the interval of a break-even holds the true one', () => {
  const { SEED: seed, DATE: date } = process.env;
  if (seed === undefined || date === undefined) throw new Error('SEED and DATE are wanted in the environment');
  const repetitions = 2000;
  const record = { date, seed, repetitions, level: 0.95, ...repeatBreakEven(repetitions, seed) };
  writeFileSync(new URL('../study/breakeven/coverage.json', import.meta.url), `${JSON.stringify(record, null, 2)}\n`);
});
