import { spawn } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';

/**
 * The islands, twenty regions of them made eighty, whose tips are said to have been tried at a load of 0.00005 nN: at an exponent of
 * 3, which nobody rules out, a scan would chip a tip a million million times.
 */
function farIslands(): string {
  return readFileSync(join(root, 'scenarios/ambient-islands.yaml'), 'utf8')
    .replaceAll(/referenceLoad: [\d.]+ nN/gu, 'referenceLoad: 0.00005 nN')
    .replace('regions: 20', 'regions: 80')
    .replace('extent: 50 um', 'extent: 90 um');
}

/** What a command has said on stderr when it first says this, or has ended; it is stopped there. */
function saidUntil(pattern: RegExp, cwd: string, ...words: readonly string[]): Promise<string> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [join(root, 'dist/cli/main.js'), ...words], {
      cwd,
      stdio: ['ignore', 'ignore', 'pipe'],
    });
    let said = '';
    child.stderr.setEncoding('utf8').on('data', (part: string) => {
      said += part;
      if (pattern.test(said)) child.kill('SIGKILL');
    });
    child.on('error', reject);
    child.on('close', () => {
      resolve(said);
    });
  });
}

describe('a comparison that takes long', () => {
  it('is said to by preview, with the range that is cut so that it ends', async () => {
    await inEmptyFolder(async (cwd) => {
      writeFileSync(join(cwd, 'far.yaml'), farIslands());
      const { code, stderr } = await swapOrHop(['preview', 'far.yaml'], { cwd });
      expect(code).toBe(0);
      expect(stderr).toMatch(
        /its range ends at `1` in place of `3`, where a `sharp` tip would chip more than 1000 times/u,
      );
      expect(stderr).toMatch(/compare takes about \d+\s(?:s|min) or more here/u);
    });
  });

  it('says so itself while it runs, of 20 replications too', async () => {
    await inEmptyFolder(async (cwd) => {
      writeFileSync(join(cwd, 'far.yaml'), farIslands());
      const said = await saidUntil(/about .+ left/u, cwd, 'compare', 'far.yaml', '--replications', '20');
      expect(said).toMatch(/^\S.*: about \d+\s(?:s|min) left$/mu);
    });
  });

  it('says nothing of it where it is short', async () => {
    await inEmptyFolder(async (cwd) => {
      const small = join(root, 'tests/support/small.yaml');
      const { stderr } = await swapOrHop(['preview', small], { cwd });
      expect(stderr).toMatch(/^\s*No fault found/u);
    });
  });
});
