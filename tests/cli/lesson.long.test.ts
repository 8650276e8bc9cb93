import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';

const scenario = join(root, 'tests/support/small.yaml');

describe('lesson', () => {
  it('writes one page, the same bytes each time, and says on stderr where', async () => {
    await inEmptyFolder(async (cwd) => {
      const first = await swapOrHop(['lesson', scenario, '--out', 'a.html'], { cwd });
      expect(first).toMatchObject({ code: 0, stdout: '' });
      expect(first.stderr).toContain('wrote a.html');
      await swapOrHop(['lesson', scenario, '--out', 'b.html'], { cwd });
      expect(readdirSync(cwd).sort()).toEqual(['a.html', 'b.html']);
      expect(readFileSync(join(cwd, 'b.html'))).toEqual(readFileSync(join(cwd, 'a.html')));
    });
  });

  it('takes the scenario that comes with it where none is named', async () => {
    await inEmptyFolder(async (cwd) => {
      expect(await swapOrHop(['lesson'], { cwd })).toMatchObject({ code: 0 });
      expect(readFileSync(join(cwd, 'lesson.html'), 'utf8')).toContain('One session of islands');
    });
  });

  it('refuses what it does not know, and leaves nothing behind', async () => {
    await inEmptyFolder(async (cwd) => {
      const outcome = await swapOrHop(['lesson', scenario, '--ou', 'x.html'], { cwd });
      expect(outcome).toMatchObject({ code: 2, stdout: '' });
      expect(outcome.stderr).toContain('did you mean --out?');
      expect(readdirSync(cwd)).toEqual([]);
    });
  });
});
