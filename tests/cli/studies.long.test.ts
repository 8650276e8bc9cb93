import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { undocumentedFields } from '../support/documented.js';
import { nonEmpty } from '../support/non-empty.js';
import { STUDIES } from '../support/studies.js';

const scenario = join(root, 'tests/support/small.yaml');

describe.each(STUDIES)('%s', (command, options, files) => {
  it('prints with --json just the summary that it writes, the same bytes each time, every field of it documented', async () => {
    await inEmptyFolder(async (cwd) => {
      const twice = await Promise.all(
        ['a', 'b'].map((out) => swapOrHop([command, scenario, ...options, '--json', '--quiet', '--out', out], { cwd })),
      );
      for (const outcome of nonEmpty(twice)) expect(outcome).toMatchObject({ code: 0, stderr: '' });
      expect(twice[1].stdout).toBe(twice[0].stdout);
      expect(readFileSync(join(cwd, 'a/summary.json'), 'utf8')).toBe(twice[0].stdout);
      for (const file of ['report.html', ...files])
        expect(readFileSync(join(cwd, 'b', file))).toEqual(readFileSync(join(cwd, 'a', file)));
      expect(undocumentedFields(twice[0].stdout)).toEqual([]);
    });
  });
});
