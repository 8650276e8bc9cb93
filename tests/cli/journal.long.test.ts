import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { filesOf } from '../support/files-of.js';

const small = join(root, 'tests/support/small.yaml');
const study = (replications: number) => ['compare', small, '--replications', String(replications)];
const JOURNAL = '.two.unfinished';

/** How many whole files the journal has. */
function filesIn(cwd: string): number {
  const journal = join(cwd, JOURNAL);
  return existsSync(journal) ? readdirSync(journal).filter((name) => name.endsWith('.results')).length : 0;
}

/**
 * Runs the study, and kills it with no chance to say anything once it has written down something.
 * @returns whether it was killed; false where it was over before that
 */
async function isKilled(cwd: string, replications: number): Promise<boolean> {
  const words = [join(root, 'dist/cli/main.js'), ...study(replications), '--out', 'two', '--threads', '1'];
  const child = spawn(process.execPath, words, { cwd, stdio: 'ignore' });
  const ended = once(child, 'exit');
  const before = filesIn(cwd);
  while (child.exitCode === null && filesIn(cwd) === before) await new Promise((resolve) => setTimeout(resolve, 20));
  child.kill('SIGKILL');
  await ended;
  return child.signalCode === 'SIGKILL' && !existsSync(join(cwd, 'two'));
}

/**
 * Kills the study twice. A run writes down little or nothing in its first three seconds, so it must last longer, on any machine.
 * @returns how many replications that took
 */
async function killTwice(cwd: string): Promise<number> {
  for (let replications = 40_000; replications <= 1_000_000; replications *= 2) {
    if ((await isKilled(cwd, replications)) && (await isKilled(cwd, replications))) return replications;
    for (const left of readdirSync(cwd)) rmSync(join(cwd, left), { recursive: true, force: true });
  }
  throw new Error('no run lasted long enough to be killed');
}

it('goes on from what a run that was killed had done, and trusts nothing that is cut short or damaged', async () => {
  await inEmptyFolder(async (cwd) => {
    const replications = await killTwice(cwd);
    expect(readdirSync(cwd)).toEqual([JOURNAL]);
    const one = await swapOrHop([...study(replications), '--out', 'one'], { cwd });
    expect(one.code, one.stderr).toBe(0);
    expect(one.stderr).not.toContain('took over');
    const journal = join(cwd, JOURNAL);
    const whole = readdirSync(journal).filter((name) => name.endsWith('.results'));
    const files = whole.map((name) => join(journal, name));

    // A file that is cut short, as by the kill, and one in which a number is another one.
    const bytes = readFileSync(files[0]);
    writeFileSync(join(journal, `${'0'.repeat(24)}.results`), bytes.subarray(0, bytes.length >> 1));
    bytes[bytes.length >> 2] ^= 1;
    writeFileSync(join(journal, `${'1'.repeat(24)}.results`), bytes);

    const two = await swapOrHop([...study(replications), '--out', 'two'], { cwd });
    expect(two.code, two.stderr).toBe(0);
    const takenOver = Number(/took over ([\d\s]+) campaigns/u.exec(two.stderr)?.[1].replace(/\s/gu, ''));
    expect(takenOver).toBeGreaterThan(0);
    expect(takenOver).toBeLessThan(2 * replications);
    expect(filesOf(join(cwd, 'two'))).toEqual(filesOf(join(cwd, 'one')));
    expect(readdirSync(cwd).sort()).toEqual(['one', 'two']);
  });
}, 600_000);
