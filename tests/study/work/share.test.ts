import { describe, expect, it } from 'vitest';
import { Collector } from '../../../src/study/collector.js';
import { alone } from '../../../src/study/work/alone.js';
import { carryOut } from '../../../src/study/work/carry-out.js';
import type { Order } from '../../../src/study/work/order.js';
import { goingOn, shareOf, shareWork } from '../../../src/study/work/share.js';
import type { Work } from '../../../src/study/work/work.js';
import { KNOWN_TEXT, loadedFrom } from '../../support/known-break-even.js';

const { strategies } = loadedFrom(KNOWN_TEXT);
const order: Order = {
  play: { kind: 'strategies', strategies },
  seed: 'share',
  from: 4,
  to: 13,
  wants: { sums: true },
};

/** Two rounds of orders, the second of which hangs on the first. */
function* study(): Work<readonly number[]> {
  const collector = new Collector(order.wants);
  const errand = (from: number, to: number) => ({
    order: { ...order, from, to },
    take: (answer: ReturnType<typeof carryOut>) => {
      collector.append(answer[0]);
    },
  });
  yield [errand(1, 10)];
  yield [errand(11, 11 + Math.floor(collector.values.tips[9]))];
  return [...collector.values.totalTime];
}

describe('shares of an order', () => {
  it('are all of its replications and each of them once, as even as can be', () => {
    for (let of = 1; of <= 14; of += 1) {
      const shares = Array.from({ length: of }, (_, i) => shareOf(order, { number: i + 1, of })).filter(
        (one) => one !== null,
      );
      const all = shares.flatMap(({ from, to }) => Array.from({ length: to - from + 1 }, (_, i) => from + i));
      expect(all).toEqual([4, 5, 6, 7, 8, 9, 10, 11, 12, 13]);
      const sizes = shares.map(({ from, to }) => to - from + 1);
      if (of <= 10) expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
    }
  });
});

describe('the share of a study', () => {
  it('answers what the study begins with, for its own replications', () => {
    const shared = alone(shareWork(study(), { number: 2, of: 3 }));
    const second = { ...order, from: 4, to: 6 };
    expect(shared).toEqual([{ order: second, answer: carryOut(second) }]);
  });

  it('lets the study go on from all shares as if it had run alone', () => {
    const begun = study();
    const first = begun.next(false);
    if (first.done === true) throw new Error('it asked for nothing');
    for (const { take } of first.value)
      for (const number of [1, 2, 3])
        for (const { answer } of alone(shareWork(study(), { number, of: 3 }))) take(answer);
    expect(alone(goingOn(begun))).toEqual(alone(study()));
  });
});
