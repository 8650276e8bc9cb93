import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { swapOrHop } from '../support/command.js';
import { INTO, inFolderWithTable, starter } from '../support/drift-table.js';
import { undocumentedFields } from '../support/documented.js';
import { nonEmpty } from '../support/non-empty.js';
import { loadedOf } from '../support/run.js';

const read = (...path: string[]) => readFileSync(join(...path), 'utf8');

describe('fit --drift', () => {
  it('fits readings into a starter that then compares: comments kept, every field documented, the same to the byte when verified', async () => {
    await inFolderWithTable(async (cwd) => {
      const outcome = await swapOrHop([...INTO, '--settling', '10 min', '--json'], { cwd });
      expect(outcome.stderr).toContain('wrote the drift into my.yaml');
      expect(outcome.code).toBe(0);
      expect(outcome.stdout).toBe(read(cwd, 'reports/readings-fit/summary.json'));
      expect(undocumentedFields(outcome.stdout)).toEqual([]);
      expect(readdirSync(join(cwd, 'reports/readings-fit')).sort()).toEqual([
        'charts',
        'drift.yaml',
        'methods.md',
        'report.html',
        'summary.json',
      ]);
      const text = read(cwd, 'my.yaml');
      for (const comment of nonEmpty(read(starter).match(/#.*$/gm) ?? [])) expect(text).toContain(comment);
      const loaded = loadedOf(text);
      expect(loaded.base.sources['workflows.hop.drift.handling']).toMatch(
        /^readings of drift readings\.csv, 10 disturbances by handling, 110 displacements$/,
      );
      expect(await swapOrHop(['verify', 'reports/readings-fit/summary.json'], { cwd })).toMatchObject({ code: 0 });
      const compared = await swapOrHop(['compare', 'my.yaml', '--replications', '2', '--draws', '40', '--verbose'], {
        cwd,
      });
      expect(compared.code).toBe(0);
      expect(compared.stdout).toContain('parameter uncertainty');
    });
  });
});
