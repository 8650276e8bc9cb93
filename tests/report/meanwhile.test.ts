import { describe, expect, it } from 'vitest';
import { madeMeanwhile } from '../../src/report/meanwhile.js';

function* counted(end: number, told: number[]): Generator<string> {
  for (let i = 1; i <= end; i += 1) {
    told.push(i);
    yield String(i);
  }
}

const after = (milliseconds: number) => new Promise((resolve) => setTimeout(resolve, milliseconds));

describe('parts made while others are at work', () => {
  it.each([
    ['all of them, where the others take longer', 3, after(500)],
    ['some of them', 100, after(20)],
    ['none but the first, where the others are through', 3, Promise.resolve()],
    ['none at all', 0, after(1)],
    ['no more than are to be held', 1000, after(5000)],
  ])('are the same parts in the same order: %s', async (_, count, work) => {
    const told: number[] = [];
    const parts = await madeMeanwhile(counted(count, told), work);
    expect(told.length).toBeLessThanOrEqual(400);
    expect([...parts]).toEqual(Array.from({ length: count }, (__, i) => String(i + 1)));
    expect(told).toHaveLength(count);
  });

  it('are made in part before the others are through, and the others are heard', async () => {
    const told: number[] = [];
    await madeMeanwhile(counted(1000, told), after(100));
    expect(told.length).toBeGreaterThan(1);
    expect(told.length).toBeLessThan(1000);
  });

  it('come though the others fail', async () => {
    const failing = Promise.reject(new Error('no picture'));
    expect([...(await madeMeanwhile(counted(3, []), failing))]).toEqual(['1', '2', '3']);
  });
});
