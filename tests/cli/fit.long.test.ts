import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { root, swapOrHop } from '../support/command.js';
import { inFolderWithLog } from '../support/fitted-log.js';

const small = join(root, 'tests/support/small.yaml');
const read = (...path: string[]) => readFileSync(join(...path), 'utf8');

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
});
