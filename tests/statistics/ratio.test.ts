import { expect, it } from 'vitest';
import { LuckTable, PURPOSES } from '../../src/chance/luck.js';
import { meanInterval } from '../../src/statistics/interval.js';
import { jackknifedRatio, linearisedRatio } from '../../src/statistics/ratio.js';
import { average } from '../support/chance.js';

const luck = new LuckTable('ratios').replication(0);
const uniform = (index: number, what: number) => luck.uniform(PURPOSES.life, 0, what, index, 0);

it('a linearised ratio has the ratio of the means as its mean', () => {
  const over = [3, 5, 4, 9];
  const under = [1, 2, 2, 3];
  expect(average(linearisedRatio(over, under))).toBeCloseTo(21 / 8, 12);
});

it('a linearised ratio is each value over the divisor where that is the same for all', () => {
  expect(linearisedRatio([3, 5, 4, 9], [2, 2, 2, 2])).toEqual([1.5, 2.5, 2, 4.5]);
});

it('the interval of a linearised ratio holds the true ratio about as often as it says', () => {
  // 1000 repetitions of 60 pairs at 95 %: coverage below 91 % or above 98 % has a chance below 1e-6 were it exact.
  let held = 0;
  for (let repetition = 0; repetition < 1000; repetition += 1) {
    const pairs = Array.from({ length: 60 }, (_, i) => repetition * 60 + i);
    const under = pairs.map((i) => 1 + uniform(i, 1));
    const over = pairs.map((i, place) => 2 * under[place] * (0.5 + uniform(i, 2)));
    const { low, high } = meanInterval([...linearisedRatio(over, under)], 0.95);
    if (low <= 2 && high >= 2) held += 1;
  }
  expect(held).toBeGreaterThan(910);
  expect(held).toBeLessThan(980);
});

it('the jackknife leaves a constant ratio alone and takes away most of the bias of a few pairs', () => {
  expect(jackknifedRatio([2, 4, 6], [1, 2, 3])).toBeCloseTo(2, 12);
  // E[over]/E[under] = 1/1, over always 1, under uniform on (½, 1½): the plain ratio of three is too high by about 1/36.
  const bias = { plain: 0, jackknifed: 0 };
  const repetitions = 20_000;
  for (let repetition = 0; repetition < repetitions; repetition += 1) {
    const under = [0, 1, 2].map((i) => 0.5 + uniform(3 * repetition + i, 3));
    bias.plain += (3 / (under[0] + under[1] + under[2]) - 1) / repetitions;
    bias.jackknifed += (jackknifedRatio([1, 1, 1], under) - 1) / repetitions;
  }
  // The standard error of either is 0.0013: at 5 standard errors the plain one shows its bias and the other none.
  expect(bias.plain).toBeGreaterThan(0.02);
  expect(Math.abs(bias.jackknifed)).toBeLessThan(0.01);
});
