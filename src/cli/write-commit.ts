import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { commitFile } from './version.js';

/** Writes down the commit that is built, with a mark where files have been changed since; null where git knows none. */
const root = fileURLToPath(new URL('../../', import.meta.url));
const found = spawnSync('git', ['describe', '--always', '--exclude=*', '--abbrev=40', '--dirty=+changes'], {
  cwd: root,
  encoding: 'utf8',
  // A work tree that this package merely lies in is somebody else's.
  env: { ...process.env, GIT_CEILING_DIRECTORIES: dirname(root.replace(/[/\\]$/, '')) },
});
const commit = found.status === 0 ? found.stdout.trim() : null;
writeFileSync(commitFile, `${JSON.stringify({ commit })}\n`);
