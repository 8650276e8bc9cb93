import { expect, it } from 'vitest';
import { againstBest } from '../../src/lesson/tasks/against-best.js';

it('tells what is clearly worse than the best by pairs, which intervals of their own would not', () => {
  const luck = Float64Array.from({ length: 100 }, (_, i) => 10 * Math.sin(i));
  const tried = [0, 0.5, 3].map((more) => ({ point: { more }, numbers: luck.map((each) => each + more) }));
  expect(againstBest(tried)).toEqual([
    { more: 0, isWorse: false },
    { more: 0.5, isWorse: true },
    { more: 3, isWorse: true },
  ]);
  // Of what has had fewer campaigns, those that both have had.
  const few = { point: { more: 2 }, numbers: luck.slice(0, 20).map((each, i) => each + 2 + (i % 2)) };
  expect(againstBest([tried[0], few]).map(({ isWorse }) => isWorse)).toEqual([false, true]);
  const noisy = { point: { more: 0 }, numbers: luck.map((each, i) => each + 0.1 + 5 * Math.cos(7 * i)) };
  expect(againstBest([tried[0], noisy]).some(({ isWorse }) => isWorse)).toBe(false);
});
