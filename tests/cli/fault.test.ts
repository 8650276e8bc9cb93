import { spawnSync } from 'node:child_process';
import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, it } from 'vitest';
import { inEmptyFolder, root } from '../support/command.js';

/** Makes something fail in every campaign, on threads alone: the program as it is has no such fault to show. */
const FAULT = `import { isMainThread } from 'node:worker_threads';
const { floor } = Math;
Error.stackTraceLimit = 100;
if (!isMainThread) Math.floor = (number) => {
  if (new Error().stack.includes('CampaignRunner')) throw new Error('the clock went wrong');
  return floor(number);
};`;

it('a fault on a thread names strategy, replication and reason, ends with exit code 1, and writes nothing', async () => {
  await inEmptyFolder((cwd) => {
    writeFileSync(join(cwd, 'fault.mjs'), FAULT);
    const node = ['--import', pathToFileURL(join(cwd, 'fault.mjs')).href, join(root, 'dist/cli/main.js')];
    const words = ['compare', join(root, 'tests/support/small.yaml'), '--replications', '20', '--threads', '2'];
    const { status, stdout, stderr } = spawnSync(process.execPath, [...node, ...words], { cwd, encoding: 'utf8' });
    expect(stderr).toContain('This is a fault of swap-or-hop');
    expect(stderr).toMatch(/strategy .+, replication \d+ failed/);
    expect(stderr).toContain('the clock went wrong');
    expect({ status, stdout, left: readdirSync(cwd) }).toEqual({ status: 1, stdout: '', left: ['fault.mjs'] });
    return Promise.resolve();
  });
});

/** Runs a command line in a terminal of its own, where progress is shown. */
function inTerminal(cwd: string, ...words: readonly string[]) {
  const line = [process.execPath, ...words].map((word) => `'${word}'`).join(' ');
  return spawnSync('script', ['-qec', line, '/dev/null'], { cwd, encoding: 'utf8', timeout: 60_000 });
}

it('a command that fails in a terminal ends, whether its work has begun or not', async () => {
  await inEmptyFolder((cwd) => {
    const small = join(root, 'tests/support/small.yaml');
    const main = join(root, 'dist/cli/main.js');
    const refused = inTerminal(cwd, main, 'breakeven', small, '--vary', 'nothing');
    expect(refused.stdout).toContain('--vary');
    expect(refused.status).toBe(2);
    writeFileSync(join(cwd, 'fault.mjs'), FAULT);
    const failed = inTerminal(cwd, '--import', './fault.mjs', main, 'compare', small, '--replications', '2000');
    expect(failed.stdout).toContain('the clock went wrong');
    expect(failed.status).toBe(1);
    return Promise.resolve();
  });
});
