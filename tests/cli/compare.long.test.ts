import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { undocumentedFields } from '../support/documented.js';

const scenario = join(root, 'tests/support/small.yaml');
const withAssumptions = join(root, 'scenarios/starters/ambient.yaml');
const FEW = ['--replications', '40'];
const summarySchema = z.looseObject({
  format: z.literal('swap-or-hop summary'),
  formatVersion: z.literal(2),
  seed: z.string(),
  replications: z.number(),
});
const read = (...path: string[]) => readFileSync(join(...path), 'utf8');

describe('compare', () => {
  it('prints the table on stdout, says on stderr what it wrote, and writes every file of a report', async () => {
    await inEmptyFolder(async (cwd) => {
      const outcome = await swapOrHop(['compare', scenario, ...FEW], { cwd });
      expect(outcome.code).toBe(0);
      expect(outcome.stdout).toContain('swap by hand');
      expect(outcome.stdout).not.toContain('wrote');
      expect(outcome.stdout).not.toContain('\u001b');
      expect(outcome.stderr).toMatch(/wrote \d+ files; open reports\/small\/report\.html/);
      const folder = join(cwd, 'reports/small');
      for (const file of ['report.html', 'summary.json', 'images.csv', 'replications.csv', 'methods.md']) {
        expect(read(folder, file).length).toBeGreaterThan(200);
      }
      expect(readdirSync(join(cwd, 'reports'))).toEqual(['small']);
    });
  });

  it('prints exactly the summary that it writes with --json, and nothing on stderr with --quiet', async () => {
    await inEmptyFolder(async (cwd) => {
      const outcome = await swapOrHop(['compare', scenario, ...FEW, '--json', '--quiet', '--out', 'out'], { cwd });
      expect(outcome).toMatchObject({ code: 0, stderr: '' });
      expect(summarySchema.parse(JSON.parse(outcome.stdout)).replications).toBe(40);
      expect(JSON.parse(outcome.stdout)).toEqual(JSON.parse(read(cwd, 'out/summary.json')));
    });
  });

  it('gives the same bytes for the same seed, and other numbers for another', async () => {
    await inEmptyFolder(async (cwd) => {
      for (const [out, seed] of [
        ['a', '0042'],
        ['b', '0042'],
        ['c', '42'],
      ] as const) {
        await swapOrHop(['compare', scenario, ...FEW, '--out', out, '--seed', seed], { cwd });
      }
      expect(read(cwd, 'b/summary.json')).toBe(read(cwd, 'a/summary.json'));
      expect(summarySchema.parse(JSON.parse(read(cwd, 'a/summary.json'))).seed).toBe('0042');
      expect(read(cwd, 'c/replications.csv')).not.toBe(read(cwd, 'a/replications.csv'));
    });
  });

  it('documents every field of summary.json that it writes', async () => {
    await inEmptyFolder(async (cwd) => {
      const outcome = await swapOrHop(['compare', withAssumptions, ...FEW, '--json'], { cwd });
      expect(undocumentedFields(outcome.stdout)).toEqual([]);
    });
  });

  it('replaces an earlier report and leaves alone what lies beside it', async () => {
    await inEmptyFolder(async (cwd) => {
      await swapOrHop(['compare', scenario, ...FEW, '--out', 'out'], { cwd });
      writeFileSync(join(cwd, 'out/letter.txt'), 'To the committee');
      writeFileSync(join(cwd, 'out/methods.md'), 'old');
      expect((await swapOrHop(['compare', scenario, ...FEW, '--out', 'out'], { cwd })).code).toBe(0);
      expect(read(cwd, 'out/letter.txt')).toBe('To the committee');
      expect(read(cwd, 'out/methods.md')).not.toBe('old');
      expect(readdirSync(cwd)).toEqual(['out']);
    });
  });

  it('never writes into a folder or over a file of somebody else', async () => {
    await inEmptyFolder(async (cwd) => {
      mkdirSync(join(cwd, 'thesis'));
      writeFileSync(join(cwd, 'thesis/summary.json'), '{"format": "another"}');
      for (const out of ['thesis', 'thesis/summary.json']) {
        const outcome = await swapOrHop(['compare', scenario, ...FEW, '--out', out], { cwd });
        expect(outcome.stderr).toContain('choose another folder with --out');
        expect(outcome).toMatchObject({ code: 2, stdout: '' });
      }
      expect(readdirSync(join(cwd, 'thesis'))).toEqual(['summary.json']);
    });
  });

  it('writes its report though the reader of stdout has gone', async () => {
    await inEmptyFolder(async (cwd) => {
      expect((await swapOrHop(['compare', scenario, ...FEW], { cwd, deaf: true })).code).toBe(0);
      expect(existsSync(join(cwd, 'reports/small/report.html'))).toBe(true);
    });
  });
});
