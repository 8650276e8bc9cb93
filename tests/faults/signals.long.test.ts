import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, it } from 'vitest';
import { inEmptyFolder, root } from '../support/command.js';

/** Writes a report into `out`, and is sent a signal right after a renaming, the first of all or the second and so on. */
const script = (signal: string, at: number) => `
  import fs from 'node:fs';
  import { syncBuiltinESMExports } from 'node:module';
  const rename = fs.renameSync;
  let renamed = 0;
  fs.renameSync = (from, to) => {
    rename(from, to);
    renamed += 1;
    if (renamed === ${String(at)}) process.kill(process.pid, '${signal}');
  };
  syncBuiltinESMExports();
  const { writeOutputFolder } = await import('${pathToFileURL(join(root, 'dist/cli/output-folder.js')).href}');
  writeOutputFolder('out', new Map([['report.html', 'new'], ['summary.json', '{"format": "swap-or-hop summary"}']]));
  process.stdout.write('written');
  setTimeout(() => undefined, 30_000);
`;

it.each(['SIGINT', 'SIGTERM', 'SIGHUP'].flatMap((signal) => [1, 2, 3].map((at) => [signal, at] as const)))(
  'a report that is swapped in keeps a file of its reader in sight, and is whole, where %s comes after renaming %i',
  async (signal, at) => {
    await inEmptyFolder((cwd) => {
      const out = join(cwd, 'out');
      mkdirSync(out);
      writeFileSync(join(out, 'summary.json'), '{"format": "swap-or-hop summary"}');
      writeFileSync(join(out, 'mine.txt'), 'precious');
      const ran = spawnSync(process.execPath, ['--input-type=module', '-e', script(signal, at)], {
        cwd,
        encoding: 'utf8',
        timeout: 20_000,
      });
      // It is ended all the same, but not before.
      expect(ran).toMatchObject({ signal, stdout: 'written', stderr: '' });
      expect(readdirSync(cwd)).toEqual(['out']);
      expect(readdirSync(out).sort()).toEqual(['mine.txt', 'report.html', 'summary.json']);
      expect(readFileSync(join(out, 'mine.txt'), 'utf8')).toBe('precious');
      expect(readFileSync(join(out, 'report.html'), 'utf8')).toBe('new');
      return Promise.resolve();
    });
  },
);
