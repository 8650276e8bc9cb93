import { copyFileSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { filesOf } from '../support/files-of.js';

const small = join(root, 'tests/support/small.yaml');
const LIFE = 'life: { distribution: probability, perUnit: 0.2 }';
const UNCERTAIN = readFileSync(small, 'utf8').replace(LIFE, `${LIFE}, uncertainty: { range: { perUnit: [0.1, 0.4] } }`);

/** Works out shards of a study, each on another number of threads, and gives their files. */
async function shardsOf(cwd: string, of: number, words: readonly string[]): Promise<readonly string[]> {
  const files: string[] = [];
  for (let number = 1; number <= of; number += 1) {
    const how = ['--shard', `${number}/${of}`, '--threads', String(1 + (number % 3)), '--quiet'];
    const { code, stdout, stderr } = await swapOrHop([...words, ...how], { cwd });
    expect(code, stderr).toBe(0);
    files.push(stdout.trim());
  }
  return files;
}

describe('merge', () => {
  it('gives the bytes of one run, whatever the number of shards, of threads, and the order of the files', async () => {
    await inEmptyFolder(async (cwd) => {
      writeFileSync(join(cwd, 'mine.yaml'), UNCERTAIN);
      const words = ['compare', 'mine.yaml', '--replications', '101', '--draws', '40', '--seed', '0 7'];
      await swapOrHop([...words, '--out', 'one'], { cwd });
      const one = filesOf(join(cwd, 'one'));
      expect(one.get('summary.json')).toContain("compare mine.yaml --seed '0 7' --replications 101 --draws 40");
      expect(one.get('report.html')).toContain('What to measure first');
      for (const of of [1, 2, 5]) {
        const files = await shardsOf(cwd, of, [...words, '--out', `shards-${of}`]);
        const merged = await swapOrHop(['merge', ...files.toReversed(), '--out', `merged-${of}`], { cwd });
        expect(merged.code, merged.stderr).toBe(0);
        expect(filesOf(join(cwd, `merged-${of}`))).toEqual(one);
      }
    });
  });

  it('does the same for a budget, and names files and folders by the scenario', async () => {
    await inEmptyFolder(async (cwd) => {
      copyFileSync(small, join(cwd, 'mine.yaml'));
      const words = ['budget', 'mine.yaml', '--replications', '110', '--chance', '95'];
      await swapOrHop([...words, '--out', 'one'], { cwd });
      const files = await shardsOf(cwd, 2, words);
      expect(files).toEqual([1, 2].map((i) => `reports/mine-budget-shards/mine-budget.${i}-of-2.shard`));
      const merged = await swapOrHop(['merge', ...files, '--json'], { cwd });
      expect(merged.code, merged.stderr).toBe(0);
      expect(filesOf(join(cwd, 'reports/mine-budget'))).toEqual(filesOf(join(cwd, 'one')));
      expect(merged.stdout).toBe(readFileSync(join(cwd, 'one/summary.json'), 'utf8'));
    });
  });

  it('wants every shard once and whole, all of one study, and says which file is not', async () => {
    await inEmptyFolder(async (cwd) => {
      const words = ['compare', small, '--replications', '8'];
      const [first, second, third] = await shardsOf(cwd, 3, words);
      const [foreign] = await shardsOf(cwd, 1, [...words, '--seed', 'other', '--out', 'foreign']);
      const bytes = readFileSync(join(cwd, second));
      writeFileSync(join(cwd, 'short.shard'), bytes.subarray(0, -20));
      bytes[bytes.length >> 1] ^= 1;
      writeFileSync(join(cwd, 'damaged.shard'), bytes);
      copyFileSync(small, join(cwd, 'none.shard'));
      for (const [files, message] of [
        [[first, third], /shard 2 of 3 is missing; one is made with: .*--replications 8 --out \S+ --shard 2\/3/u],
        [[second], /shards 1, 3 of 3 are missing/u],
        [[first, second, third, first], /both hold shard 1\/3/u],
        [[first, foreign, third], /foreign\/small\.1-of-1\.shard does not go with .*seed is "other"/u],
        [[first, 'short.shard', third], /short\.shard: .*cut short/u],
        [[first, 'damaged.shard', third], /damaged\.shard: .*damaged/u],
        [
          [first, 'none.shard', 'gone.shard'],
          /none\.shard: .*does not begin like one of this version; take it away.*\n.*gone\.shard: .*no such file/u,
        ],
        [['.'], /this is a folder; a shard is wanted/u],
      ] as const) {
        const outcome = await swapOrHop(['merge', ...files, '--out', 'merged'], { cwd });
        expect(outcome.code).toBe(2);
        expect(outcome.stderr).toMatch(message);
        expect(readdirSync(cwd)).not.toContain('merged');
      }
    });
  });
});

describe('--shard', () => {
  it('is refused where there is nothing to deal out, with what to type instead', async () => {
    await inEmptyFolder(async (cwd) => {
      for (const [words, message] of [
        [['--replications', '100', '--shard', '0/3'], /--shard wants .* such as 2\/5, not "0\/3"/u],
        [['--replications', '100', '--shard', '4/3'], /there is no shard 4 of 3/u],
        [['--replications', '100', '--shard', 'two'], /--shard wants/u],
        [['--shard', '1/3'], /say with --replications/u],
        [['--replications', '100', '--shard', '1/101'], /too few for 101 shards/u],
        [['--replications', '100', '--shard', '1/3', '--json'], /give it to `merge`/u],
      ] as const) {
        const outcome = await swapOrHop(['compare', small, ...words], { cwd });
        expect(outcome.code).toBe(2);
        expect(outcome.stderr).toMatch(message);
        expect(readdirSync(cwd)).toEqual([]);
      }
    });
  });

  it('writes one file, leaves alone what lies beside it, and never over a file of somebody else', async () => {
    await inEmptyFolder(async (cwd) => {
      mkdirSync(join(cwd, 'out'));
      writeFileSync(join(cwd, 'out/letter.txt'), 'To the committee');
      const words = ['compare', small, '--replications', '20', '--shard', '2/12', '--out', 'out'];
      expect(await swapOrHop(words, { cwd })).toMatchObject({ code: 0 });
      expect(await swapOrHop(words, { cwd })).toMatchObject({ code: 0 });
      expect(readdirSync(join(cwd, 'out'))).toEqual(['letter.txt', 'small.02-of-12.shard']);
      writeFileSync(join(cwd, 'out/small.02-of-12.shard'), 'mine');
      const outcome = await swapOrHop(words, { cwd });
      expect(outcome.code).toBe(2);
      expect(outcome.stderr).toMatch(/small\.02-of-12\.shard is there already and is no shard/u);
      expect(readFileSync(join(cwd, 'out/small.02-of-12.shard'), 'utf8')).toBe('mine');
    });
  });
});
