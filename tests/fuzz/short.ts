import { describe, expect, it } from 'vitest';
import { MOST_SECONDS } from './target.js';
import { TARGETS } from './targets.js';

/** Few, as they are drawn in every run of the tests; the long form is `npm run fuzz`, what it came to in RECORD.md. */
const CASES = 250;
const SEED = 1;

/** Tests some of the targets. */
export function fuzzShortly(names: readonly string[]): void {
  describe.each(TARGETS.filter(({ name }) => names.includes(name)).map((target) => [target.name, target] as const))(
    'fuzzing: %s',
    (_, { promise, every, run }) => {
      it(promise, async () => {
        const { failure, cases, kept, slowest } = await run({ seed: SEED, cases: CASES });
        expect(failure).toBeNull();
        expect(cases).toBe(kept + Math.ceil(CASES / every));
        expect(slowest).toBeLessThan(MOST_SECONDS);
      });
    },
  );
}
