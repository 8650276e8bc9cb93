import { writeFileSync } from 'node:fs';
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

  it('prints a table to fill in, and that of a simulated campaign, which it takes up again', async () => {
    await inEmptyFolder(async (cwd) => {
      const template = await swapOrHop(['midway', scenario, '--template', '--strategy', 'hop'], { cwd });
      expect(template.stdout.split('\r\n').slice(0, 3)).toEqual([
        'what,which,value,takes,instrument,note',
        'now,,Tue 09:00,,,such as Tue 14:00 or week 2 Tue 14:00',
        'granted left,,,,,where it is not as planned: such as 2 sessions or 6 h',
      ]);
      expect(template.stdout).toMatch(/^tip use,,,,,"of the tip that is on/m);
      const example = await swapOrHop(['midway', scenario, '--example', 'Tu 11:00', '--strategy', 'hop'], { cwd });
      for (const [name, text] of [
        ['template.csv', template.stdout],
        ['example.csv', example.stdout],
      ] as const) {
        writeFileSync(join(cwd, name), text);
        const args = [
          'midway',
          scenario,
          '--strategy',
          'hop',
          '--done',
          name,
          '--replications',
          '40',
          '--out',
          `of-${name}`,
        ];
        expect(await swapOrHop(args, { cwd })).toMatchObject({ code: 0 });
      }
    });
  });
});
