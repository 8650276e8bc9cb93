import { expect, it } from 'vitest';
import { repeatBreakEven } from '../../support/known-break-even.js';

it('the interval of a break-even holds the true one in a short run as often as chance allows', () => {
  // 20 repetitions; 10 or more misses at a chance of 5 % each come less than once in ten million seeds. The long run is in
  // tests/calibrate/RECORD.md.
  const { held, none } = repeatBreakEven(20, 'short run');
  expect(none).toBe(0);
  expect(held).toBeGreaterThan(10);
});
