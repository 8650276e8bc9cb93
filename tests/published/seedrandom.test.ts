import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { departure, publishedCase } from '../support/check-values.js';

describe('seedrandom, which turns the seed text into the key', () => {
  // seedrandom 3.0.5, README: vectors for 'hello.'.
  it('gives the numbers of its README', () => {
    const { inputs, expected } = publishedCase(
      'seedrandom-readme',
      z.object({ seed: z.string() }),
      z.object({ arc4: z.array(z.number()), quick_third: z.number(), int32_fourth: z.number() }),
    );
    const random = seedrandom(inputs.seed);
    expect([random(), random()]).toEqual(expected.arc4);
    expect(random.quick()).toBe(expected.quick_third);
    expect(random.int32()).toBe(expected.int32_fourth);
  });

  it('is as even as its known stream', () => {
    const { inputs, expected } = publishedCase(
      'seedrandom-uniformity',
      z.object({ seed: z.string(), n: z.int(), bins: z.int() }),
      z.object({
        first5: z.array(z.number()),
        mean: z.number(),
        mean_square: z.number(),
        counts: z.array(z.int()),
        chi2: z.number(),
        ks_D: z.number(),
        chi2_9_95: z.number(),
        ks_crit_95: z.number(),
      }),
    );
    const { n, bins } = inputs;
    const random = seedrandom(inputs.seed);
    const stream = Array.from({ length: n }, () => random());
    expect(stream.slice(0, 5)).toEqual(expected.first5);
    const counts = new Array<number>(bins).fill(0);
    for (const u of stream) counts[Math.floor(bins * u)] += 1;
    expect(counts).toEqual(expected.counts);
    const chiSquare = counts.reduce((sum, count) => sum + (count - n / bins) ** 2 / (n / bins), 0);
    const sorted = [...stream].sort((a, b) => a - b);
    const distance = Math.max(...sorted.map((u, i) => Math.max((i + 1) / n - u, u - i / n)));
    const total = (values: number[]) => values.reduce((sum, value) => sum + value, 0);
    expect(departure(total(stream) / n, expected.mean)).toBeLessThan(1e-12);
    expect(departure(total(stream.map((u) => u * u)) / n, expected.mean_square)).toBeLessThan(1e-12);
    expect(departure(chiSquare, expected.chi2)).toBeLessThan(1e-12);
    expect(departure(distance, expected.ks_D)).toBeLessThan(1e-12);
    expect(chiSquare).toBeLessThan(expected.chi2_9_95);
    expect(distance).toBeLessThan(expected.ks_crit_95);
  });
});
