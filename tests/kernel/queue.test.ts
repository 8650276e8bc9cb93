import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { comesBefore, EventQueue, type EventKey } from '../../src/kernel/queue.js';

const keys = fc
  .array(fc.record({ time: fc.nat(5), rank: fc.nat(3) }), { maxLength: 60 })
  .map((list) => list.map((key, sequence): EventKey => ({ ...key, sequence })));

const compare = (a: EventKey, b: EventKey) => a.time - b.time || a.rank - b.rank || a.sequence - b.sequence;

function drain(queue: EventQueue<EventKey>): EventKey[] {
  const out: EventKey[] = [];
  for (let event = queue.pop(); event !== undefined; event = queue.pop()) out.push(event);
  return out;
}

describe('the event queue', () => {
  it('orders by time, then rank, then sequence', () => {
    const base = { time: 5, rank: 2, sequence: 7 };
    expect(comesBefore({ time: 4, rank: 9, sequence: 9 }, base)).toBe(true);
    expect(comesBefore({ time: 5, rank: 1, sequence: 9 }, base)).toBe(true);
    expect(comesBefore({ time: 5, rank: 2, sequence: 6 }, base)).toBe(true);
    expect(comesBefore(base, base)).toBe(false);
    expect(comesBefore({ time: 6, rank: 0, sequence: 0 }, base)).toBe(false);
  });

  it('gives back what a sort gives, whatever goes in', () => {
    fc.assert(
      fc.property(keys, (events) => {
        const queue = new EventQueue<EventKey>();
        for (const event of events) queue.push(event);
        expect(queue.size).toBe(events.length);
        expect(drain(queue)).toEqual([...events].sort(compare));
      }),
      { seed: 1, numRuns: 300 },
    );
  });

  it('always gives the least of what is in it while events come and go', () => {
    fc.assert(
      fc.property(keys, fc.infiniteStream(fc.boolean()), (events, coins) => {
        const queue = new EventQueue<EventKey>();
        const inside: EventKey[] = [];
        const take = () => {
          inside.sort(compare);
          expect(queue.peek()).toBe(inside[0]);
          expect(queue.pop()).toBe(inside.shift());
        };
        for (const event of events) {
          queue.push(event);
          inside.push(event);
          if (coins.next().value) take();
        }
        while (inside.length > 0) take();
        expect(queue.pop()).toBeUndefined();
      }),
      { seed: 2, numRuns: 300 },
    );
  });
});
