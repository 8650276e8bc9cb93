import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { askedFor, mapAsked } from '../../../src/studies/budget/asked.js';
import { OrderStatistics } from '../../../src/statistics/order-statistics.js';
import { publishedCase } from '../../support/check-values.js';

const { inputs, expected } = publishedCase(
  'order-statistic-ranks',
  z.array(z.object({ n: z.number(), p: z.number(), conf: z.literal(0.95) })),
  z.array(z.object({ r: z.number(), s: z.number() })),
);

describe('what is asked for', () => {
  // Order-statistic ranks for n and p: W. J. Conover, Practical Nonparametric Statistics, 3rd ed., section 3.2.
  it.each(inputs.map((input, i) => ({ ...input, ...expected[i] })))(
    'ends at the published order statistics for $n campaigns and a chance of $p',
    ({ n, p, r, s }) => {
      const needed = Array.from({ length: n }, (_, i) => n - i);
      const asked = askedFor(new OrderStatistics(needed), p);
      expect(asked.low).toBe(r);
      // With too few campaigns for an upper end nothing can be promised.
      expect(asked.ask).toBe(s > n ? null : s);
      expect(needed.filter((each) => each <= (asked.value ?? 0)).length / n).toBeGreaterThanOrEqual(p);
    },
  );

  it('is nothing where too many campaigns never come to an end', () => {
    const needed = Array.from({ length: 1000 }, (_, i) => (i < 930 ? i : Infinity));
    expect(askedFor(new OrderStatistics(needed), 0.9).ask).toBeLessThan(930);
    expect(askedFor(new OrderStatistics(needed), 0.95)).toEqual({ value: null, low: null, ask: null });
  });

  it('keeps what has no answer without one in another unit', () => {
    expect(mapAsked({ value: 2, low: 1, ask: null }, (hours) => hours * 8)).toEqual({ value: 16, low: 8, ask: null });
  });
});
