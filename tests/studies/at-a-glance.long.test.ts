import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { MOST_WORDS, wordsIn } from '../../src/analysis/answer.js';
import { MOST_LINES } from '../../src/report/answer.js';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';

const scenarios = readdirSync(join(root, 'scenarios')).filter((file) => file.endsWith('.yaml'));

/** Studies of any scenario, kept short. */
const STUDIES: readonly (readonly [command: string, ...options: string[]])[] = [
  ['budget', '--replications', '100', '--granted', '2 h'],
  ['breakeven', '--vary', 'plan.regions=2..4 by 2'],
  ['sweep', '--vary', 'pace.scan=1, 1.5, 2'],
  ['occupancy', '--replications', '40'],
  ['worth', '--draws', '100'],
];

describe.each(STUDIES)('%s', (command, ...options) => {
  it.each(scenarios)(
    'answers for %s first of all, in at most 60 words without paths and marks of code, and on 25 lines',
    async (file) => {
      await inEmptyFolder(async (cwd) => {
        const scenario = join(root, 'scenarios', file);
        const shown = await swapOrHop([command, scenario, ...options, '--quiet'], { cwd });
        // What a scenario cannot be studied for is said at once.
        if (shown.code === 2) return;
        expect(shown.stderr).toBe('');
        expect(shown.stdout.trimEnd().split('\n').length).toBeLessThanOrEqual(MOST_LINES);
        const [, headline] = shown.stdout.split('\n\n');
        expect(wordsIn([headline])).toBeLessThanOrEqual(MOST_WORDS);
        expect(headline).not.toMatch(/`|\b[a-z]+\.[a-z]+\.[a-z]+/iu);
      });
    },
  );
});
