import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { undocumentedFields } from '../support/documented.js';

const LIFE = 'life: { distribution: probability, perUnit: 0.2 }';
const UNCERTAIN = readFileSync(join(root, 'tests/support/small.yaml'), 'utf8').replace(
  LIFE,
  `${LIFE}, uncertainty: { range: { perUnit: [0.1, 0.4] } }`,
);
const FEW = ['--replications', '20', '--draws', '40'];

describe('compare, of a scenario that says how far it is known', () => {
  it('reports random variation and parameter uncertainty apart, the same each time, in fields that are documented', async () => {
    await inEmptyFolder(async (cwd) => {
      writeFileSync(join(cwd, 'mine.yaml'), UNCERTAIN);
      const first = await swapOrHop(['compare', 'mine.yaml', ...FEW, '--json'], { cwd });
      expect(first.code, first.stderr).toBe(0);
      expect(first.stdout).toContain('"worth"');
      expect(undocumentedFields(first.stdout)).toEqual([]);
      const again = await swapOrHop(['compare', 'mine.yaml', ...FEW, '--json'], { cwd });
      expect(again.stdout).toBe(first.stdout);
      const page = readFileSync(join(cwd, 'reports/mine/report.html'), 'utf8');
      expect(page).toContain('What to measure first');
      expect(page).toContain('compare mine.yaml --replications 20 --draws 40');
    });
  });

  it('wants enough draws for a span', async () => {
    await inEmptyFolder(async (cwd) => {
      writeFileSync(join(cwd, 'mine.yaml'), UNCERTAIN);
      const outcome = await swapOrHop(['compare', 'mine.yaml', '--draws', '5'], { cwd });
      expect(outcome.code).toBe(2);
      expect(outcome.stderr).toMatch(/--draws wants a whole number .*40/u);
    });
  });

  it('refuses an uncertainty that is none, at its place', async () => {
    await inEmptyFolder(async (cwd) => {
      writeFileSync(join(cwd, 'mine.yaml'), UNCERTAIN.replace('[0.1, 0.4]', '[0.4, 0.1]'));
      const outcome = await swapOrHop(['compare', 'mine.yaml'], { cwd });
      expect(outcome.code).toBe(2);
      expect(outcome.stderr).toContain('a lower end below the upper one is wanted');
      expect(outcome.stderr).toMatch(/mine\.yaml:10:124/u);
    });
  });
});
