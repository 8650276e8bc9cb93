import { defineConfig } from 'vitest/config';

/** Tests that want Slurm and GNU parallel; `with-slurm.sh` sees to the first. */
export default defineConfig({
  test: { include: ['tests/cluster/*.long.ts'], testTimeout: 900_000, fileParallelism: false },
});
