import { defineConfig } from 'vitest/config';

/** Tests that mirror the folder mutated, without the build, which mutants do not reach. */
export default defineConfig({
  test: {
    include: [`tests/${process.env['MUTATED'] ?? '{kernel,chance,probe,campaign}'}/**/*.test.ts`],
    // These play thousands of campaigns, many of them while they load: half a minute for each change.
    exclude: ['continuing', 'known-answers', 'presumed', 'properties'].map((name) => `tests/campaign/${name}.test.ts`),
    setupFiles: ['tests/mutation/setup.ts'],
    // Modules are loaded once for all files: loading them takes longer than the tests.
    isolate: false,
    testTimeout: 60_000,
  },
});
