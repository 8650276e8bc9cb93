import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { root } from '../support/command.js';
import { withFreshExamples } from '../support/examples.js';

describe.each(['README.md', 'shared/docs/commands.md'])('%s', (file) => {
  // Written anew by `npx vitest run tests/cli/examples.long.test.ts -u`.
  it('shows what the program prints now', async () => {
    const document = readFileSync(join(root, file), 'utf8');
    expect(document.match(/<!-- shown: /g)?.length).toBeGreaterThan(5);
    const fresh = await withFreshExamples(document);
    // Faults are shown of the file that is there to have them, `bad.yaml`, alone.
    expect(fresh.match(/^error(?!.*bad\.yaml).*/gmu) ?? []).toEqual([]);
    await expect(fresh).toMatchFileSnapshot(join(root, file));
  }, 600_000);
});
