import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { copyFileSync, existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { Failure } from '../../src/scenario/failure.js';
import { type ShardAbout, SHARD_FORMAT } from '../../src/cli/shards/about.js';
import { openShard, resultsIn, shardFile } from '../../src/cli/shards/open.js';
import { sha256Of } from '../../src/cli/text-file.js';
import { runJob } from '../../src/execution/in-process.js';
import type { Job } from '../../src/execution/job.js';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { filesOf } from '../support/files-of.js';
import { KNOWN_TEXT, loadedFrom } from '../support/known-break-even.js';

const small = join(root, 'tests/support/small.yaml');
/** Milliseconds after the start at which the file goes: from before it is read until long after. */
const MOMENTS = [0, 200, 400, 700];

/** What a command that lost its file in this moment came to. */
async function withoutFile(cwd: string, words: readonly string[], file: string, moment: number) {
  const child = spawn(process.execPath, [join(root, 'dist/cli/main.js'), ...words, '--out', 'report'], { cwd });
  let stderr = '';
  child.stdout.resume();
  child.stderr.on('data', (text: Buffer) => (stderr += text.toString()));
  await new Promise((resolve) => setTimeout(resolve, moment));
  rmSync(join(cwd, file));
  await once(child, 'close');
  return { code: child.exitCode, stderr };
}

/** Makes two shards of a small study; gives what they are. */
async function shardsIn(cwd: string): Promise<ReadonlyMap<string, Buffer>> {
  copyFileSync(small, join(cwd, 'mine.yaml'));
  const files = new Map<string, Buffer>();
  for (const shard of [1, 2]) {
    const how = ['--replications', '300', '--shard', `${shard}/2`, '--out', 'shards'];
    const { stdout } = await swapOrHop(['compare', 'mine.yaml', ...how], { cwd });
    files.set(`${shard}.shard`, readFileSync(join(cwd, stdout.trim())));
  }
  return files;
}

/** What the only shard of a small study says of itself. */
const ABOUT: ShardAbout = {
  ...{ format: SHARD_FORMAT, formatVersion: 1, seed: '1', study: 'compare', options: {} },
  tool: { name: 'swap-or-hop', version: '0.1.0', commit: null },
  scenario: { file: 'mine.yaml', sha256: sha256Of(KNOWN_TEXT) },
  shard: { number: 1, of: 1 },
};

const filesOn = (name: string, file: string) => () => Promise.resolve(new Map([[name, readFileSync(file)]]));

describe('a file that vanishes while it is read', () => {
  it.each([
    ['a scenario', ['compare', 'mine.yaml', '--replications', '300'], filesOn('mine.yaml', small)],
    ['a shard', ['merge', '1.shard', '2.shard'], shardsIn],
    ['a log', ['fit', 'mine.csv', '--skip'], filesOn('mine.csv', join(root, 'scenarios/logs/tip-log.csv'))],
  ] as const)('%s makes a whole report, or none and one line that names it', async (_, words, made) => {
    await inEmptyFolder(async (cwd) => {
      const files = await made(cwd);
      const lay = () => {
        for (const [name, bytes] of files) writeFileSync(join(cwd, name), bytes);
      };
      lay();
      await swapOrHop([...words, '--out', 'whole'], { cwd });
      const whole = filesOf(join(cwd, 'whole'));
      expect(whole.size).toBeGreaterThan(3);
      const file = [...files.keys()].at(-1) ?? '';
      for (const moment of MOMENTS) {
        lay();
        const { code, stderr } = await withoutFile(cwd, words, file, moment);
        if (code === 0) expect(filesOf(join(cwd, 'report'))).toEqual(whole);
        else {
          expect(code).toBe(2);
          expect(stderr).toMatch(new RegExp(`^error {2}${file}: cannot be read: .*no such file`, 'u'));
          expect(existsSync(join(cwd, 'report'))).toBe(false);
        }
        rmSync(join(cwd, 'report'), { recursive: true, force: true });
        expect(readdirSync(cwd).filter((name) => name.startsWith('.'))).toEqual([]);
      }
    });
  });

  it('is named where it goes between the check of all shards and the reading of its numbers', async () => {
    await inEmptyFolder((cwd) => {
      const { strategies } = loadedFrom(KNOWN_TEXT);
      const job: Job = {
        experiment: { kind: 'strategies', strategies },
        ...{ seed: '1', from: 1, to: 9, wants: {} },
      };
      const file = join(cwd, 'one.shard');
      writeFileSync(file, Buffer.concat([...shardFile(ABOUT, KNOWN_TEXT, [{ job, result: runJob(job) }])]));
      const [known] = resultsIn([openShard(file)]).known(job);
      rmSync(file);
      expect(known.read).toThrow(Failure);
      expect(known.read).toThrow(`${file}: cannot be read`);
      return Promise.resolve();
    });
  });
});
