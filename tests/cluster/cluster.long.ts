import { execFileSync } from 'node:child_process';
import {
  chmodSync,
  copyFileSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { root, swapOrHop } from '../support/command.js';
import { filesOf } from '../support/files-of.js';

const folder = mkdtempSync(join(tmpdir(), 'swap-or-hop-cluster-'));
const study = (replications: number) => ['plan.yaml', '--replications', String(replications)];
const SHARDS = 2;
/** The task that is killed in the middle of its work. */
const KILLED = 2;

const pause = (milliseconds: number) => new Promise((resolve) => setTimeout(resolve, milliseconds));

function run(program: string, ...words: readonly string[]): string {
  return execFileSync(program, words, {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, SWAP_OR_HOP: join(folder, 'swap-or-hop') },
  });
}

/** Waits until there is something, for five minutes at most. */
async function waitFor<Found>(what: string, look: () => Found | null): Promise<Found> {
  for (let tries = 0; tries < 1500; tries += 1) {
    const found = look();
    if (found !== null) return found;
    await pause(200);
  }
  throw new Error(`waited in vain for ${what}\n${run('squeue', '--all')}`);
}

/** Processes that work out a shard in a folder, the program itself and no shell around it. */
function workers(shard: string, out: string): readonly number[] {
  return run('ps', '-eo', 'pid=,args=')
    .split('\n')
    .filter((line) => line.includes('main.js compare') && line.includes(`--out ${out} --shard ${shard} `))
    .map((line) => Number(line.trim().split(' ')[0]));
}

function sizesIn(place: string): readonly number[] {
  return existsSync(place) ? readdirSync(place).map((name) => statSync(join(place, name)).size) : [];
}

function isOver(): true | null {
  return run('squeue', '--noheader') === '' ? true : null;
}

/** The folder of one run and that of merged shards hold the same bytes. */
async function expectOneRun(words: readonly string[], merged: string): Promise<void> {
  const one = await swapOrHop(['compare', ...words, '--out', `${merged}-at-once`], { cwd: folder });
  expect(one.code, one.stderr).toBe(0);
  expect(filesOf(join(folder, merged))).toEqual(filesOf(join(folder, `${merged}-at-once`)));
}

beforeAll(() => {
  copyFileSync(join(root, 'tests/support/small.yaml'), join(folder, 'plan.yaml'));
  const program = `#!/bin/sh\nexec '${process.execPath}' '${join(root, 'dist/cli/main.js')}' "$@"\n`;
  writeFileSync(join(folder, 'swap-or-hop'), program);
  chmodSync(join(folder, 'swap-or-hop'), 0o755);
});

afterAll(() => {
  rmSync(folder, { recursive: true });
});

/**
 * Submits the tasks and their merging, and kills one of them once it has written down something, which none does in its first
 * three seconds.
 * @returns whether it was killed; false where it was over before that
 */
async function isKilled(replications: number): Promise<boolean> {
  const script = join(root, 'shared/cluster/shards.sh');
  const submit = ['--parsable', '--output=task-%a.log', `--array=1-${SHARDS}`];
  const job = run('sbatch', ...submit, script, String(SHARDS), ...study(replications), '--out', 'shards').trim();
  const merging = `./swap-or-hop merge shards/*.shard --out merged`;
  run('sbatch', `--dependency=afterok:${job}`, '--output=merge.log', '--wrap', merging);

  const file = join(folder, 'shards', `plan.${KILLED}-of-${SHARDS}.shard`);
  const journal = join(folder, 'shards', `.plan.${KILLED}-of-${SHARDS}.shard.unfinished`);
  // While the journal has grown but once or twice, its first entry may not be whole.
  const grown = new Set<number>();
  await waitFor('a whole entry in the journal of a task', () => {
    grown.add(sizesIn(journal).reduce((sum, size) => sum + size, 0));
    return existsSync(file) || grown.size > 3 ? true : null;
  });
  const victim = workers(`${KILLED}/${SHARDS}`, 'shards').at(0);
  if (victim !== undefined && !existsSync(file)) process.kill(victim, 'SIGKILL');
  await waitFor('the end of all jobs', isOver);
  return readFileSync(join(folder, `task-${KILLED}.log`), 'utf8').includes('goes back into the queue');
}

/** Has a task killed in the middle of its work, on a machine of any speed. @returns how many replications that took */
async function killOne(): Promise<number> {
  for (let replications = 40_000; replications <= 1_000_000; replications *= 2) {
    if (await isKilled(replications)) return replications;
    for (const made of ['shards', 'merged']) rmSync(join(folder, made), { recursive: true, force: true });
  }
  throw new Error('no task lasted long enough to be killed');
}

describe('an array job of Slurm', () => {
  it('takes a task that was killed into the queue again, goes on from what it did, and merges to the bytes of one run', async () => {
    const replications = await killOne();
    const log = readFileSync(join(folder, `task-${KILLED}.log`), 'utf8');
    expect(log).toContain(`shard ${KILLED}/${SHARDS} was ended by signal 9 and goes back into the queue`);
    expect(log).toMatch(/took over [\d\s]+ campaigns/u);
    expect(readdirSync(join(folder, 'shards'))).toHaveLength(SHARDS);
    await expectOneRun(study(replications), 'merged');
  });
});

describe('GNU parallel', () => {
  it('works out shards, and they merge to the bytes of one run', async () => {
    const shard = [
      './swap-or-hop',
      'compare',
      ...study(1000),
      '--out',
      'parallel',
      '--threads',
      '1',
      '--shard',
      '{}/3',
    ];
    run('parallel', '--will-cite', '--jobs', '2', '--retries', '3', ...shard, ':::', '1', '2', '3');
    const files = readdirSync(join(folder, 'parallel')).map((name) => join('parallel', name));
    run('./swap-or-hop', 'merge', ...files, '--out', 'merged-too');
    await expectOneRun(study(1000), 'merged-too');
  });
});
