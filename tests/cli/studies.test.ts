import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { STUDIES as DECLARED } from '../../src/studies/index.js';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { undocumentedFields } from '../support/documented.js';
import { STUDIES } from '../support/studies.js';

const scenario = join(root, 'tests/support/small.yaml');
/** The same with three values that are only assumed, for studies to try. */
const ASSUMED = readFileSync(scenario, 'utf8').replace('  noticing: measured for this test\n', '');

it('studies of a scenario are all tried here, but for the comparison, which has tests of its own', () => {
  const all = Object.entries(DECLARED).flatMap(([name, { file }]) => (file === undefined ? [name] : []));
  expect(STUDIES.map(([name]) => name).sort()).toEqual(all.filter((name) => name !== 'compare').sort());
});

describe.each(STUDIES)('%s', (command, asked, files) => {
  // Three values tell as much of the command as all of them.
  const options = asked.filter((option) => option !== '--all');

  it('shows its results on stdout, says on stderr what it wrote, and writes every file of its report', async () => {
    await inEmptyFolder(async (cwd) => {
      writeFileSync(join(cwd, 'small.yaml'), ASSUMED);
      const outcome = await swapOrHop([command, 'small.yaml', ...options], { cwd });
      expect(outcome.code).toBe(0);
      expect(outcome.stdout).toContain('Three regions');
      expect(outcome.stdout).not.toContain('\u001b');
      expect(outcome.stderr).toContain(`open reports/small-${command}/report.html`);
      const folder = join(cwd, `reports/small-${command}`);
      // To know these three is worth nothing, so that there is nothing to draw.
      const charts = command === 'worth' ? [] : ['charts'];
      expect(readdirSync(folder).sort()).toEqual([...charts, 'report.html', 'summary.json', ...files].sort());
      expect(undocumentedFields(readFileSync(join(folder, 'summary.json'), 'utf8'))).toEqual([]);
    });
  });

  it('refuses what it does not know, and leaves nothing behind', async () => {
    await inEmptyFolder(async (cwd) => {
      const outcome = await swapOrHop([command, scenario, ...options, '--sede', '1'], { cwd });
      expect(outcome).toMatchObject({ code: 2, stdout: '' });
      expect(outcome.stderr).toContain('did you mean --seed?');
      expect(readdirSync(cwd)).toEqual([]);
    });
  });
});

describe('budget', () => {
  it.each([
    [['--chance', '100'], /--chance 100: one of 50, 80, 90, 95 is wanted$/m],
    [['--chance', '91'], /--chance 91: one of 50, 80, 90, 95 is wanted; did you mean `(?:90|95)`\?/],
    [['--granted', '3 days'], /--granted: read `3 days`.*write sessions such as/],
    [['--strategy', 'hopp'], /no strategy is called `hopp`; did you mean `hop`\?/],
    [['--replications', '5'], /--replications wants a whole number from 100/],
  ])('says what is wanted instead of %j', async (options, message) => {
    const outcome = await swapOrHop(['budget', scenario, ...options]);
    expect(outcome).toMatchObject({ code: 2, stdout: '' });
    expect(outcome.stderr).toMatch(message);
  });
});
