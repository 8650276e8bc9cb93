import { configDefaults, defineConfig } from 'vitest/config';
import { hasPackagedBrowser, installedBrowser } from './tests/support/browser.js';

const hasBrowser = hasPackagedBrowser() || installedBrowser() !== null;
if (!hasBrowser) console.warn('tests/browser is skipped: install Chrome or Chromium to run it');

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: [...configDefaults.exclude, ...(hasBrowser ? [] : ['tests/browser/**'])],
    // The command line is tested as users meet it, so it is built once before anything runs.
    globalSetup: ['tests/support/build.ts', 'tests/support/ready-browser.ts'],
    pool: 'forks',
    // Files share what they import, which takes longer to read than most of them to run; none changes what others see.
    isolate: false,
    maxWorkers: 2,
    // Generous, for a machine that has much else to do.
    testTimeout: 240_000,
    hookTimeout: 120_000,
    reporters: ['default'],
    coverage: { provider: 'v8', include: ['src/**/*.ts'], reporter: ['text-summary', 'html'] },
  },
});
