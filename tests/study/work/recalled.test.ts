import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Collector } from '../../../src/study/collector.js';
import { carryOut } from '../../../src/study/work/carry-out.js';
import type { Answer, Errand, Order } from '../../../src/study/work/order.js';
import { type Memory, recalled } from '../../../src/study/work/recalled.js';
import type { Work } from '../../../src/study/work/work.js';
import { KNOWN_TEXT, loadedFrom } from '../../support/known-break-even.js';

const { strategies } = loadedFrom(KNOWN_TEXT);
const order: Order = {
  play: { kind: 'strategies', strategies },
  ...{ seed: 'recalled', from: 1, to: 12, wants: { sums: true } },
};
const everything = carryOut(order);

/** Collects one order, and counts the stretches that came. */
function* study(): Work<Answer> {
  const collectors = strategies.map(() => new Collector(order.wants));
  const take: Errand['take'] = (answer) => {
    answer.forEach((batch, i) => {
      collectors[i].append(batch);
    });
  };
  yield [{ order, take }];
  return collectors.map((collector) => collector.batch());
}

const singles = Array.from({ length: order.to }, (_, i) => carryOut({ ...order, from: i + 1, to: i + 1 }));

function stretch(from: number, to: number) {
  return { from, to, read: () => (from === to ? singles[from - 1] : carryOut({ ...order, from, to })) };
}

/** Carries out what is asked, the last first and each replication by itself, and gives what was asked for. */
function backwards<Result>(work: Work<Result>): { result: Result; asked: readonly (readonly [number, number])[] } {
  const asked: (readonly [number, number])[] = [];
  for (let step = work.next(false); ; step = work.next(false)) {
    if (step.done === true) return { result: step.value, asked };
    const errands = [...step.value];
    for (const each of errands) asked.push([each.order.from, each.order.to]);
    for (const { order: ordered, take } of errands.reverse())
      for (let i = ordered.from; i <= ordered.to; i += 1) take(singles[i - 1]);
  }
}

function remembering(known: Memory['known']): Memory & { readonly kept: (readonly [number, number])[] } {
  const kept: (readonly [number, number])[] = [];
  return { known, kept, keep: ({ from, to }) => kept.push([from, to]) };
}

describe('work with a memory', () => {
  it('asks only for what is not known, and comes to the same', () => {
    const memory = remembering(() => [stretch(1, 2), stretch(5, 7), stretch(12, 12)]);
    const { result, asked } = backwards(recalled(study(), memory));
    expect(asked).toEqual([
      [3, 4],
      [8, 11],
    ]);
    expect(result).toEqual(everything);
  });

  it('comes to the same whatever is known', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: 12 })), (known) => {
        const memory = remembering(() => known.toSorted((a, b) => a - b).map((at) => stretch(at, at)));
        const { result, asked } = backwards(recalled(study(), memory));
        expect(result).toEqual(everything);
        const run = asked.flatMap(([from, to]) => Array.from({ length: to - from + 1 }, (_, i) => from + i));
        expect([...run, ...known].sort((a, b) => a - b)).toEqual(Array.from({ length: 12 }, (_, i) => i + 1));
      }),
      { numRuns: 60, seed: 6 },
    );
  });

  it('tells its memory of each stretch that was carried out, and of no other', () => {
    const memory = remembering(() => [stretch(2, 10)]);
    backwards(recalled(study(), memory));
    expect(memory.kept).toEqual([
      [11, 11],
      [12, 12],
      [1, 1],
    ]);
  });

  it('hands over without a gap where it is stopped by hand', () => {
    const work = recalled(
      study(),
      remembering(() => [stretch(1, 3), stretch(6, 12)]),
    );
    const first = work.next(false);
    if (first.done === true) throw new Error('it asked for nothing');
    for (const { order: ordered, take } of first.value) take(carryOut({ ...ordered, to: ordered.from }));
    const last = work.next(true);
    expect(last.value).toEqual(carryOut({ ...order, to: 4 }));
  });
});
