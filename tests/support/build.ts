import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Builds `dist/` once for all tests that run the command as a process; what does not type-check is the type check's to report. */
export default function build(): void {
  const root = fileURLToPath(new URL('../../', import.meta.url));
  const compiler = fileURLToPath(new URL('../../node_modules/typescript/bin/tsc', import.meta.url));
  spawnSync(process.execPath, [compiler, '-p', 'tsconfig.build.json'], {
    cwd: root,
    stdio: ['ignore', 'ignore', 'inherit'],
  });
}
