import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inEmptyFolder, root } from '../support/command.js';

const cruiser = join(root, 'node_modules/dependency-cruiser/bin/dependency-cruise.mjs');
const config = join(root, '.dependency-cruiser.cjs');

function cruise(cwd: string) {
  return spawnSync(process.execPath, [cruiser, 'src', '--config', config], { cwd, encoding: 'utf8' });
}

describe('the layers', () => {
  it('import only from earlier ones, without circles, and know no machine before study', () => {
    const outcome = cruise(root);
    expect(outcome.stdout + outcome.stderr).toContain('no dependency violations found');
    expect(outcome.status).toBe(0);
  });

  it('are clearly different by the check: a kernel that reads a file or imports a campaign is refused, as is a study that imports another', async () => {
    await inEmptyFolder((folder) => {
      for (const layer of ['kernel', 'campaign', 'studies/one', 'studies/other'])
        mkdirSync(join(folder, 'src', layer), { recursive: true });
      writeFileSync(join(folder, 'tsconfig.json'), '{}');
      writeFileSync(join(folder, 'src/campaign/b.ts'), 'export const b = 1;\n');
      writeFileSync(join(folder, 'src/kernel/a.ts'), "import 'node:fs';\nimport '../campaign/b';\n");
      writeFileSync(join(folder, 'src/studies/one/a.ts'), 'export const a = 1;\n');
      writeFileSync(join(folder, 'src/studies/other/b.ts'), "import '../one/a';\n");
      const outcome = cruise(folder);
      expect(outcome.stdout).toContain('no-study-imports-another');
      expect(outcome.stdout).toContain('kernel-imports-only-from-earlier-layers');
      expect(outcome.stdout).toContain('pure-layers-know-no-machine');
      expect(outcome.status).not.toBe(0);
      return Promise.resolve();
    });
  });
});
