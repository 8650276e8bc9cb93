import { defineConfig } from 'vitest/config';

/** Tests that mirror the folder mutated, without the build, which mutants do not reach. */
export default defineConfig({
  test: {
    include: [`tests/${process.env['MUTATED'] ?? '{kernel,chance,probe,campaign}'}/**/*.test.ts`],
    // These play thousands of campaigns, seconds for each change.
    exclude: ['tests/campaign/known-answers.test.ts', 'tests/campaign/presumed.test.ts'],
    setupFiles: ['tests/mutation/setup.ts'],
    testTimeout: 60_000,
  },
});
