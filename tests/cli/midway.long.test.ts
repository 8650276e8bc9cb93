import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';

const scenario = join(root, 'scenarios/ambient-islands.yaml');
const state = join(root, 'scenarios/states/ambient-islands-tuesday.csv');

describe('midway', () => {
  it('prints the summary with --json, with the same bytes for the same seed', async () => {
    await inEmptyFolder(async (cwd) => {
      const args = ['midway', scenario, '--done', state, '--replications', '40', '--json', '--quiet', '--out'];
      const first = await swapOrHop([...args, 'a'], { cwd });
      const second = await swapOrHop([...args, 'b'], { cwd });
      expect(first).toMatchObject({ code: 0, stderr: '' });
      expect(second.stdout).toBe(first.stdout);
      const summary = z.looseObject({ format: z.string(), replications: z.number() }).parse(JSON.parse(first.stdout));
      expect(summary).toMatchObject({ format: 'swap-or-hop midway', replications: 40 });
    });
  });
});
