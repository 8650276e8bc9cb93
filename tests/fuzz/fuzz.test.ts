import { describe, expect, it } from 'vitest';
import { TARGETS } from './targets.js';

/** Few, as they are drawn for each target in every run of the tests; the long form is `npm run fuzz`. */
const CASES = 300;
const SEED = 1;

describe.each(TARGETS.map((target) => [target.name, target] as const))('fuzzing: %s', (_, { promise, every, run }) => {
  it(promise, async () => {
    const { failure, cases, slowest } = await run(SEED, CASES);
    expect(failure).toBeNull();
    expect(cases).toBe(Math.ceil(CASES / every));
    expect(slowest).toBeLessThan(2);
  });
});
