import { defineConfig } from 'vitest/config';

/** Long runs whose results are recorded beside the tests that hold them to what they promise. */
export default defineConfig({ test: { include: ['tests/calibrate/*.long.ts'], testTimeout: 7_200_000 } });
