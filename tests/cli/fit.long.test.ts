import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { root, swapOrHop } from '../support/command.js';
import { FEW_LIVES, inFolderWithLog } from '../support/fitted-log.js';

const small = join(root, 'tests/support/small.yaml');
const read = (...path: string[]) => readFileSync(join(...path), 'utf8');

const INTO = ['fit', 'log.csv', '--into', 'my.yaml', '--bootstrap', '0'];

describe('fit', () => {
  it('gives the same bytes when it is run twice, in the report and in the scenario, which then compares', async () => {
    await inFolderWithLog(async (cwd) => {
      const args = ['fit', 'log.csv', '--into', 'my.yaml', '--bootstrap', '3'];
      await swapOrHop([...args, '--out', 'a'], { cwd });
      const once = read(cwd, 'my.yaml');
      await swapOrHop([...args, '--out', 'b'], { cwd });
      expect(once).not.toBe(read(small));
      expect(read(cwd, 'my.yaml')).toBe(once);
      for (const file of ['summary.json', 'report.html', 'methods.md', 'hazards.yaml'])
        expect(read(cwd, 'b', file)).toBe(read(cwd, 'a', file));
      const compared = await swapOrHop(['compare', 'my.yaml', '--replications', '2', '--draws', '40', '--verbose'], {
        cwd,
      });
      expect(compared.code).toBe(0);
      expect(compared.stdout).toContain('parameter uncertainty');
    });
  });

  it('refuses a log with rows that cannot be used, each with its place, unless they are to be left out, which it says first', async () => {
    await inFolderWithLog(async (cwd) => {
      const rows = ['x1,sharp,12,lever gone', 'x2,sharp,n/a,breakage', 'x3,sharp,-,sound'];
      writeFileSync(join(cwd, 'log.csv'), `${FEW_LIVES}\n${rows.join('\n')}\n`);
      const refused = await swapOrHop(INTO, { cwd });
      expect(refused).toMatchObject({ code: 2, stdout: '' });
      expect(refused.stderr).toContain('log.csv:16:13  error  read `lever gone` as what ended the tip');
      expect(refused.stderr).toContain('log.csv:17:1  error  no use is given');
      expect(refused.stderr).toMatch(/3 rows of 17 in log\.csv cannot be used; nothing was .* --skip/);
      expect(read(cwd, 'my.yaml')).toBe(read(small));
      expect(existsSync(join(cwd, 'reports'))).toBe(false);
      const left = await swapOrHop([...INTO, '--skip'], { cwd });
      expect(left.code).toBe(0);
      expect(left.stdout.replaceAll('\n', ' ')).toMatch(
        /14 of 17 rows, .*3 of 17 rows of the log are left out.*lifetimes are biased\./,
      );
      expect(read(cwd, 'reports/log-fit/report.html')).toMatch(/3 of 17 rows of the log are left out/);
      expect(await swapOrHop(['verify', 'reports/log-fit/summary.json'], { cwd })).toMatchObject({ code: 0 });
    });
  });

  it('says where a comment stands beside a value that was replaced', async () => {
    await inFolderWithLog(async (cwd) => {
      const text = read(small).replace('perUnit: 0.2 } }', 'perUnit: 0.2 } } # as a guess');
      writeFileSync(join(cwd, 'my.yaml'), text);
      const outcome = await swapOrHop(INTO, { cwd });
      expect(outcome.code).toBe(0);
      const line =
        read(cwd, 'my.yaml')
          .split('\n')
          .findIndex((each) => each.includes('# as a guess')) + 1;
      expect(line).toBeGreaterThan(0);
      expect(outcome.stderr).toContain(`my.yaml:${String(line)}: the comment “as a guess”`);
    });
  });
});
