import { defineConfig } from 'vitest/config';

/** Tests that mirror the folder mutated, without the build, which mutants do not reach. */
export default defineConfig({
  test: {
    include: [`tests/${process.env['MUTATED'] ?? '{kernel,chance,probe,campaign}'}/**/*.test.ts`],
    setupFiles: ['tests/mutation/setup.ts'],
    testTimeout: 60_000,
  },
});
