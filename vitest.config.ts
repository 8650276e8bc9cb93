import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    // The command line is tested as users meet it, so it is built once before anything runs.
    globalSetup: ['tests/support/build.ts'],
    pool: 'forks',
    maxWorkers: 2,
    // Generous, for a machine that has much else to do.
    testTimeout: 240_000,
    hookTimeout: 120_000,
    reporters: ['default'],
    coverage: { provider: 'v8', include: ['src/**/*.ts'], reporter: ['text-summary', 'html'] },
  },
});
