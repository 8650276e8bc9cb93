import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { inEmptyFolder, root } from '../support/command.js';
import { nonEmpty } from '../support/non-empty.js';

const lockFile = z.object({
  packages: z.record(
    z.string(),
    z.object({
      resolved: z.string().optional(),
      integrity: z.string().optional(),
      link: z.boolean().optional(),
      hasInstallScript: z.boolean().optional(),
    }),
  ),
});
const { packages } = lockFile.parse(JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')));
const libraries = Object.entries(packages).filter(([path]) => path !== '');

describe('the lock file', () => {
  it('has a SHA-512 of every library, so that no other bytes are installed', () => {
    expect(libraries.length).toBeGreaterThan(100);
    for (const [path, { integrity }] of nonEmpty(libraries))
      expect(integrity, path).toMatch(/^sha512-[A-Za-z0-9+/]{86}==$/);
  });

  it('takes every library from the registry of npm: no other address, no folder, no repository', () => {
    for (const [path, { resolved, link }] of nonEmpty(libraries)) {
      expect(path).toMatch(/^node_modules\//);
      expect(link, path).toBeUndefined();
      if (resolved !== undefined) expect(new URL(resolved).origin, path).toBe('https://registry.npmjs.org');
    }
  });

  it('knows one library that wants to run a script when installed, which is not needed', () => {
    const wanting = libraries.filter(([, { hasInstallScript }]) => hasInstallScript === true).map(([path]) => path);
    expect(wanting).toEqual(['node_modules/esbuild']);
    expect(readFileSync(join(root, '.ci/run'), 'utf8')).toMatch(/^npm ci --ignore-scripts /m);
  });
});

describe('the list of licences', () => {
  const script = join(root, 'tests/support/write-licences.js');
  const check = (cwd: string) => spawnSync(process.execPath, [script, '--check'], { cwd, encoding: 'utf8' });

  it('is current, and holds only licences that go with Apache-2.0', () => {
    expect(check(root)).toMatchObject({ status: 0, stderr: '' });
  });

  it.each([
    ['GPL-3.0-only', /a 1\.0\.0: licence “GPL-3\.0-only” is not known to go with Apache-2\.0/],
    ['MIT AND GPL-2.0', /is not known/],
    [undefined, /licence “none named” is not known/],
    ['(MIT OR GPL-2.0)', /licences\.md is not current/],
  ])('refuses a library under %s', async (license, message) => {
    await inEmptyFolder((folder) => {
      const lock = {
        packages: {
          '': { name: 'b', version: '1.0.0', license: 'MIT' },
          'node_modules/a': { version: '1.0.0', license },
        },
      };
      writeFileSync(join(folder, 'package-lock.json'), JSON.stringify(lock));
      mkdirSync(join(folder, 'shared'));
      writeFileSync(join(folder, 'shared/licences.md'), '');
      const { status, stderr } = check(folder);
      expect(stderr).toMatch(message);
      expect(status).toBe(1);
      return Promise.resolve();
    });
  });
});
