import { execFile, spawnSync } from 'node:child_process';
import {
  chmodSync,
  copyFileSync,
  cpSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { describe, expect, it } from 'vitest';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { nonEmpty } from '../support/non-empty.js';

const main = join(root, 'dist/cli/main.js');
const small = join(root, 'tests/support/small.yaml');
const ARGS = ['compare', 'small.yaml', '--replications', '10', '--out', 'out/report', '--quiet'];
const read = (...path: string[]) => readFileSync(join(...path), 'utf8');
const isRoot = process.getuid?.() === 0;

/** An old report, which a letter lies beside. */
async function inFolderWithReport(work: (cwd: string) => Promise<void>): Promise<void> {
  await inEmptyFolder(async (cwd) => {
    copyFileSync(small, join(cwd, 'small.yaml'));
    expect((await swapOrHop([...ARGS, '--seed', 'old'], { cwd })).code).toBe(0);
    writeFileSync(join(cwd, 'out/report/letter.txt'), 'To the committee');
    await work(cwd);
  });
}

function expectOld(cwd: string): void {
  expect(read(cwd, 'out/report/summary.json')).toContain('"seed": "old"');
  expect(read(cwd, 'out/report/letter.txt')).toBe('To the committee');
  expect(readdirSync(join(cwd, 'out')).filter((name) => name !== '.report.unfinished')).toEqual(['report']);
}

/** Runs a line of the shell; `"$@"` is the command. */
function shell(line: string, cwd: string) {
  const args = ['-c', line, 'sh', process.execPath, main, ...ARGS];
  return spawnSync('sh', args, { cwd, encoding: 'utf8' });
}

/** Bytes that a folder's files take on a disk, in whole pages. */
function roomOf(folder: string): number {
  const page = 4096;
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return files.reduce(
    (sum, { parentPath, name }) => sum + Math.ceil(statSync(join(parentPath, name)).size / page) * page,
    0,
  );
}

describe('where there is no room', () => {
  it('for a file that large, the old report stays as it was, and the reason is said', async () => {
    await inFolderWithReport((cwd) => {
      const outcome = shell('ulimit -f 32; exec "$@"', cwd);
      expect(outcome.stderr).toMatch(/^error {2}out\/report cannot be written: a file would be larger/m);
      expect(outcome.status).toBe(1);
      expect(outcome.stdout, 'the table is shown all the same').toContain('10 replications');
      expectOld(cwd);
      return Promise.resolve();
    });
  });

  it.skipIf(!isRoot)(
    'on a disk that is full, the old report stays as it was, and the reason is said',
    async ({ skip }) => {
      await inFolderWithReport(async (cwd) => {
        const [disk, out] = [join(cwd, 'disk'), join(cwd, 'out')];
        mkdirSync(disk);
        const { status } = spawnSync('mount', [
          '-t',
          'tmpfs',
          '-o',
          `size=${Math.round(1.4 * roomOf(out))}`,
          'tmpfs',
          disk,
        ]);
        skip(status !== 0, 'nothing may be mounted here');
        try {
          cpSync(out, disk, { recursive: true });
          rmSync(out, { recursive: true });
          const outcome = await swapOrHop(['compare', 'small.yaml', '--replications', '10', '--out', 'disk/report'], {
            cwd,
          });
          expect(outcome.stderr).toContain('disk/report cannot be written: no space left on the disk');
          expect(outcome.code).toBe(1);
          expect(outcome.stdout, 'the table is shown all the same').toContain('10 replications');
          cpSync(disk, out, { recursive: true });
          expectOld(cwd);
        } finally {
          spawnSync('umount', [disk]);
        }
      });
    },
  );

  it('for what is shown, that is said in one line, and the report is there', async () => {
    await inFolderWithReport((cwd) => {
      const outcome = shell('exec "$@" > /dev/full', cwd);
      expect(outcome.stderr).toBe('error  stdout cannot be written: no space left on the disk\n');
      expect(outcome.status).toBe(1);
      expect(read(cwd, 'out/report/summary.json')).not.toContain('"seed": "old"');
      return Promise.resolve();
    });
  });
});

describe('a folder in which nobody may write', () => {
  it('keeps its old report, and the reason is said', async () => {
    await inFolderWithReport((cwd) => {
      chmodSync(cwd, 0o755);
      chmodSync(join(cwd, 'out'), 0o555);
      // Root may write anywhere, unless it goes without the right to.
      const outcome = shell(isRoot ? 'exec setpriv --bounding-set=-dac_override "$@"' : 'exec "$@"', cwd);
      chmodSync(join(cwd, 'out'), 0o755);
      expect(outcome.stderr).toContain('error  out/report cannot be written: permission denied');
      expect(outcome).toMatchObject({ status: 1, stdout: '' });
      expectOld(cwd);
      return Promise.resolve();
    });
  });
});

describe('a place in which no report can be', () => {
  const refusal = async (cwd: string, out: string) => {
    const outcome = await swapOrHop(['compare', 'small.yaml', '--out', out], { cwd });
    expect(outcome.stdout).toBe('');
    expect(
      readdirSync(cwd)
        .filter((name) => name !== 'out')
        .sort(),
    ).toEqual(['link', 'small.yaml']);
    return outcome;
  };

  it('is refused before any work, with the reason: a broken link, a name that is too long', async () => {
    await inFolderWithReport(async (cwd) => {
      symlinkSync('nowhere', join(cwd, 'link'));
      const [link, long] = [await refusal(cwd, 'link'), await refusal(cwd, 'n'.repeat(300))];
      expect(link.stderr).toContain('error  link is a broken link');
      expect(long.stderr).toMatch(/error {2}n+ cannot be written: the name is too long/);
      for (const { code, stderr } of [link, long]) {
        expect(code).toBe(1);
        expect(stderr).not.toContain('replications');
      }
    });
  });
});

/** Writes a report of one word again and again. */
const WRITER = `const { writeOutputFolder } = await import(process.argv[1]);
for (let i = 0; i < 40; i += 1) {
  const word = process.argv[2] + i;
  writeOutputFolder('report', new Map([['summary.json', '{"format":"swap-or-hop x","word":"' + word + '"}'],
    ['report.html', word], ['charts/a.svg', '<svg aria-labelledby="a-title a-desc">' + word + '</svg>']]));
}`;

describe('several runs that write to one folder at once', () => {
  it('leave a report of one of them, whole, with all that a person laid there, and nothing beside it', async () => {
    await inEmptyFolder(async (cwd) => {
      const write = (word: string) =>
        promisify(execFile)(
          process.execPath,
          ['--input-type=module', '-e', WRITER, join(root, 'dist/cli/output-folder.js'), word],
          { cwd },
        );
      const once = WRITER.replace('i < 40', 'i < 1');
      spawnSync(process.execPath, ['--input-type=module', '-e', once, join(root, 'dist/cli/output-folder.js'), 'z'], {
        cwd,
      });
      writeFileSync(join(cwd, 'report/letter.txt'), 'To the committee');
      writeFileSync(join(cwd, 'report/charts/mine.svg'), '<svg/>');
      const ends = await Promise.allSettled(['a', 'b', 'c'].map(write));
      for (const end of nonEmpty(ends)) expect(end).toMatchObject({ status: 'fulfilled' });
      const [, word = ''] = /"word":"(\w+)"/.exec(read(cwd, 'report/summary.json')) ?? [];
      expect(word).toMatch(/^[abc]39$/);
      expect(read(cwd, 'report/report.html')).toBe(word);
      expect(read(cwd, 'report/charts/a.svg')).toContain(`>${word}<`);
      expect(read(cwd, 'report/letter.txt')).toBe('To the committee');
      expect(read(cwd, 'report/charts/mine.svg')).toBe('<svg/>');
      expect(readdirSync(join(cwd, 'report')).sort()).toEqual(['charts', 'letter.txt', 'report.html', 'summary.json']);
      expect(readdirSync(cwd)).toEqual(['report']);
    });
  });
});
