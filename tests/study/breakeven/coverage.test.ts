import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { repeatBreakEven } from '../../support/known-break-even.js';

const count = z.number().int().nonnegative();
const record = z
  .strictObject({
    date: z.iso.date(),
    seed: z.string(),
    repetitions: count,
    level: z.literal(0.95),
    held: count,
    above: count,
    below: count,
    none: count,
  })
  .parse(JSON.parse(readFileSync(new URL('./coverage.json', import.meta.url), 'utf8')));

describe('the interval of a break-even', () => {
  it('held the true one in 92.5 to 97.2 % of the recorded long run, of 2000 repetitions, each with an answer', () => {
    expect(record.repetitions).toBe(2000);
    expect(record.held + record.above + record.below + record.none).toBe(record.repetitions);
    expect(record.none).toBe(0);
    expect(record.held / record.repetitions).toBeGreaterThanOrEqual(0.925);
    expect(record.held / record.repetitions).toBeLessThanOrEqual(0.972);
  });

  it('holds it in a short run too, as often as chance allows', () => {
    // 20 repetitions; 10 or more misses at a chance of 5 % each come less than once in ten million seeds.
    const { held, none } = repeatBreakEven(20, 'short run');
    expect(none).toBe(0);
    expect(held).toBeGreaterThan(10);
  });
});
