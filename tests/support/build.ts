import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Builds `dist/` once for all tests that run the command as a process; what does not type-check is the type check's to report. */
export default function build(): void {
  const root = fileURLToPath(new URL('../../', import.meta.url));
  const compiler = fileURLToPath(new URL('../../node_modules/typescript/bin/tsc', import.meta.url));
  for (const args of [
    [compiler, '-p', 'tsconfig.build.json'],
    ['dist/cli/write-commit.js'],
    ['dist/lesson/bundles.js'],
  ])
    spawnSync(process.execPath, args, { cwd: root, stdio: ['ignore', 'ignore', 'inherit'] });
}
