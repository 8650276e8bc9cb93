import { describe, expect, it } from 'vitest';
import type { Answer, Errand, Order } from '../../../src/study/work/order.js';
import { answered, Stopped, together, type Work } from '../../../src/study/work/work.js';

const ANSWER: Answer = [{ count: 1, columns: {}, sums: null }];

/** An errand of one replication, told apart by its number. */
function errand(number: number, take: Errand['take'] = () => undefined): Errand {
  const order: Order = {
    play: { kind: 'strategies', strategies: [] },
    ...{ seed: 'seed', from: number, to: number, wants: {} },
  };
  return { order, take };
}

/** Work that has so many errands run, one a round, and tells how often it was answered. */
function* rounds(name: number, count: number): Work<string> {
  let taken = 0;
  for (let round = 0; round < count; round += 1)
    yield* answered([
      errand(10 * name + round, () => {
        taken += 1;
      }),
    ]);
  return `${name} took ${taken}`;
}

/** Answers all errands; gives the result, and of each round the numbers of its errands. */
function driven<Result>(work: Work<Result>): {
  readonly result: Result;
  readonly seen: readonly (readonly number[])[];
} {
  const seen: number[][] = [];
  for (let step = work.next(false); ; step = work.next(false)) {
    if (step.done === true) return { result: step.value, seen };
    const round = [...step.value];
    for (const { take } of round) take(ANSWER);
    seen.push(round.map(({ order }) => order.from));
  }
}

describe('works side by side', () => {
  it('go on together, round by round, and give their results in their own order', () => {
    const { result, seen } = driven(together([rounds(1, 3), rounds(2, 1), rounds(3, 2)]));
    expect(result).toEqual(['1 took 3', '2 took 1', '3 took 2']);
    expect(seen.filter(({ length }) => length > 0)).toEqual([[10, 20, 30], [11, 31], [12]]);
  });

  it('begin no more at once than they may, and come to the same', () => {
    const { result, seen } = driven(together([rounds(1, 2), rounds(2, 2), rounds(3, 1), rounds(4, 0)], 2));
    expect(result).toEqual(['1 took 2', '2 took 2', '3 took 1', '4 took 0']);
    expect(Math.max(...seen.map(({ length }) => length))).toBe(2);
  });

  it('are nothing where there are none', () => {
    expect(driven(together([])).result).toEqual([]);
  });

  it('all end where they are stopped, also those of which nobody asked for an errand yet', () => {
    const work = together([rounds(1, 2), rounds(2, 2)]);
    const step = work.next(false);
    if (step.done === true) throw new Error('it has errands');
    const [first] = step.value;
    expect(first.order.from).toBe(10);
    expect(() => work.next(true)).toThrow(Stopped);
  });
});
