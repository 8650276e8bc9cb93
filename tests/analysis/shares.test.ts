import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { budget } from '../../src/studies/budget/budget.js';
import { compare } from '../../src/studies/compare/compare.js';
import { differenceIn } from '../../src/analysis/differences.js';
import { shareOf } from '../../src/analysis/estimate.js';
import type { Estimate } from '../../src/statistics/estimate.js';
import { loadedFrom } from '../support/known-break-even.js';
import { root } from '../support/command.js';
import { nonEmpty } from '../support/non-empty.js';

/** Tips break so seldom that few of the campaigns have a bad image, and of those hardly one has most bad. */
const RARE = readFileSync(join(root, 'tests/support/small.yaml'), 'utf8')
  .replace('perUnit: 0.2', 'perUnit: 0.02')
  .concat('bookings: { allocation: 3 h }\n');
const RECORD = { file: 'rare.yaml', sha256: '0', toolVersion: '0' };
const SEEDS = Array.from({ length: 80 }, (_, i) => String(i));

/** Whether some estimate has the end of a range of shares for an end of its interval, which proves that it was cut there. */
function endsWithin(estimates: readonly Estimate[]): boolean {
  for (const { low, high } of nonEmpty(estimates))
    expect([0, low, high, 1]).toEqual([0, low, high, 1].toSorted((a, b) => a - b));
  return estimates.some(({ low, high }) => low < high && (low === 0 || high === 1));
}

describe('the interval of a share', () => {
  it('ends at 0 and 1 where its width would lead beyond', () => {
    // Student's t of one degree of freedom is 12.7: 0.95 ± 0.64.
    expect(shareOf([0.9, 1])).toMatchObject({ value: 0.95, high: 1 });
    expect(shareOf([0.9, 1]).low).toBeCloseTo(0.95 - 12.7062 * 0.05, 4);
    expect(shareOf([0, 0.1])).toMatchObject({ low: 0 });
    expect(shareOf([0.4, 0.41, 0.42]).low).toBeGreaterThan(0);
  });

  it('of a difference ends at -1 and 1, and that of another measure where it will', () => {
    const wide = { low: -1.4, high: 1.2 };
    for (const measure of ['yield', 'apparentYield', 'undetectedBadShare'])
      expect(differenceIn(measure, wide)).toEqual({ low: -1, high: 1 });
    for (const measure of ['time', 'tips', 'cost']) expect(differenceIn(measure, wide)).toEqual(wide);
  });

  it('never leaves [0, 1] in a comparison of few campaigns', () => {
    const summaries = SEEDS.map((seed) => compare(loadedFrom(RARE), { ...RECORD, seed, replications: 2 }).summary);
    const measures = summaries.flatMap(({ strategies }) =>
      strategies.flatMap(({ measures: all, cut }) => [
        ...[all.yield, all.apparentYield, all.undetectedBadShare],
        ...(cut === null ? [] : [cut.yield, cut.undetectedBadShare]),
      ]),
    );
    expect(endsWithin(measures)).toBe(true);
  });

  it('never leaves [0, 1] in a budget', () => {
    const asked = budget(loadedFrom(RARE.replace('0.02', '0.0001')), {
      ...RECORD,
      replications: 100,
      granted: { unit: 'hour', amount: 2 },
    });
    const shares = asked.strategies.flatMap(({ yield: whole, within, curve }) => [
      whole,
      ...[...(within === null ? [] : [within]), ...curve].flatMap((each) => [each.yield, each.measured]),
    ]);
    expect(endsWithin(shares)).toBe(true);
  });
});
