import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';

const scenario = join(root, 'scenarios/ambient-islands.yaml');
const state = join(root, 'scenarios/states/ambient-islands-tuesday.csv');
const FEW = ['--replications', '40'];

describe('midway', () => {
  it('prints the ways to go on and the answer, and writes the report and the run sheet', async () => {
    await inEmptyFolder(async (cwd) => {
      const outcome = await swapOrHop(['midway', scenario, '--done', state, ...FEW], { cwd });
      expect(outcome.code).toBe(0);
      expect(outcome.stdout).toContain('carry on by the rules');
      expect(outcome.stdout).toContain('change the tip now');
      expect(outcome.stdout).toMatch(/The 15 images that are left are complete within the granted time/);
      const folder = join(cwd, 'reports/ambient-islands-midway');
      expect(readdirSync(folder).sort()).toEqual(
        ['charts', 'report.html', 'run-sheet.html', 'run-sheet.md', 'summary.json'].sort(),
      );
      const sheet = readFileSync(join(folder, 'run-sheet.md'), 'utf8');
      expect(sheet).toContain('after every 12 finished scans');
      expect(sheet).toContain('apex radius above 16 nm');
      expect(sheet).toContain('no reason to shorten a safety step');
      expect(sheet).toContain('Silicon fragments');
    });
  });

  it('says with its place what is wrong with the table, and writes nothing', async () => {
    await inEmptyFolder(async (cwd) => {
      writeFileSync(join(cwd, 'bad.csv'), 'what,which,value\nnow,,Tu 25:00\nimage,1,lost\n');
      const outcome = await swapOrHop(['midway', scenario, '--done', 'bad.csv'], { cwd });
      expect(outcome).toMatchObject({ code: 2, stdout: '' });
      expect(outcome.stderr).toContain('bad.csv:2:6  error');
      expect(outcome.stderr).toContain('bad.csv:3:9  error');
      expect(outcome.stderr).toContain('2 errors in bad.csv; nothing was run or written');
      expect(readdirSync(cwd)).toEqual(['bad.csv']);
      const many = Array.from({ length: 40 }, (_, i) => `image,${i + 1},word ${i + 1}`);
      writeFileSync(join(cwd, 'bad.csv'), `what,which,value\nnow,,Tu 25:00\n${many.join('\n')}\n`);
      const manyFaults = await swapOrHop(['midway', scenario, '--done', 'bad.csv'], { cwd });
      expect(manyFaults.stderr.split('\n').filter((line) => line.includes('bad.csv:'))).toHaveLength(11);
      expect(manyFaults.stderr).toContain('… and 30 more like the one in line 3\n');
      expect(manyFaults.stderr).toContain('41 errors in bad.csv; nothing was run or written');
      const without = await swapOrHop(['midway', scenario], { cwd });
      expect(without).toMatchObject({ code: 2 });
      expect(without.stderr).toContain('--template');
    });
  });
});
