import { defineConfig } from 'vitest/config';

const tests: unknown = JSON.parse(process.env['MUTATION_TESTS'] ?? '[]');

/** Tests that belong to the folder mutated, without the build, which mutants do not reach. */
export default defineConfig({
  test: {
    include: Array.isArray(tests) ? tests.map(String) : [],
    exclude: [
      'tests/**/*.long.test.ts',
      // These play thousands of campaigns, many of them while they load: half a minute for each change.
      ...['continuing', 'known-answers', 'properties'].map((name) => `tests/campaign/${name}.test.ts`),
    ],
    setupFiles: ['tests/mutation/setup.ts'],
    // Modules are loaded once for all files: loading them takes longer than the tests.
    isolate: false,
    // Under the instruments, on a machine that has much else to do; what hangs is ended by Stryker.
    testTimeout: 600_000,
  },
});
