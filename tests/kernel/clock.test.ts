import { describe, expect, it } from 'vitest';
import { microseconds, SECOND } from '../../src/kernel/clock.js';

describe('seconds as microseconds', () => {
  it('are whole, rounded to the nearest, halves up', () => {
    expect(microseconds(0)).toBe(0);
    expect(microseconds(1)).toBe(SECOND);
    expect(microseconds(90)).toBe(90_000_000);
    expect(microseconds(0.0000014)).toBe(1);
    expect(microseconds(0.0000015)).toBe(2);
    expect(microseconds(0.0000004)).toBe(0);
    expect(microseconds(1 / 3)).toBe(333_333);
    expect(microseconds(2 / 3)).toBe(666_667);
  });
});
