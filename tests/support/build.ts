import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Builds `dist/` once for all tests that run the command as a process; what does not type-check is the type check's to report. */
export default function build(): void {
  const root = fileURLToPath(new URL('../../', import.meta.url));
  const compiler = fileURLToPath(new URL('../../node_modules/typescript/bin/tsc', import.meta.url));
  const statusOf = (...args: readonly string[]) =>
    spawnSync(process.execPath, args, { cwd: root, stdio: ['ignore', 'ignore', 'inherit'] }).status;
  statusOf(compiler, '-p', 'tsconfig.build.json');
  for (const script of [
    'dist/cli/write-commit.js',
    'dist/lesson/bundles.js',
    'dist/explore/bundles.js',
    'dist/cli/bundles.js',
  ])
    // Tests of what an earlier build left would say nothing of the sources.
    if (statusOf(script) !== 0) throw new Error(`${script} failed, so there is nothing to test`);
}
