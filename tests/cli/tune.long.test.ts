import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { nonEmpty } from '../support/non-empty.js';

const scenario = join(root, 'tests/support/small.yaml');
const VARY = ['--vary', 'rules.after=2 images, none'];

describe('tune', () => {
  it('prints the answer first, its table below it, and says where to find what to write into the scenario', async () => {
    await inEmptyFolder(async (cwd) => {
      const outcome = await swapOrHop(
        ['tune', scenario, '--strategy', 'hop', ...VARY, '--zone', '0.1', '--yield-at-least', '80 %', '--out', 'out'],
        { cwd },
      );
      expect(outcome.code).toBe(0);
      const [table, answer] = ['rules.after', 'For the least time, take none'].map((part) =>
        outcome.stdout.indexOf(part),
      );
      expect(answer).toBeGreaterThan(0);
      expect(table).toBeGreaterThan(answer);
      expect(outcome.stdout.trimEnd().endsWith('in the folder of the report.')).toBe(true);
      expect(nonEmpty(outcome.stdout.split('\n')).every((line) => line.length <= 100)).toBe(true);
      expect(readFileSync(join(cwd, 'out/setting.yaml'), 'utf8')).toContain('- name: hop');
      const page = readFileSync(join(cwd, 'out/report.html'), 'utf8');
      expect(page).toContain('--strategy hop');
      expect(page).toContain('--yield-at-least &#39;80 %&#39;');
    });
  });

  it('takes several values at once', async () => {
    await inEmptyFolder(async (cwd) => {
      const outcome = await swapOrHop(
        ['tune', scenario, ...VARY, '--vary', 'pace.scan=1, 1.2', '--zone', '10 %', '--goal', 'least-time-per-quality'],
        { cwd },
      );
      expect(outcome.code).toBe(0);
      expect(outcome.stdout).toMatch(
        /take none for “Use after which a tip is replaced” and\n?\s?1\.2 for “pace\.scan”/,
      );
    });
  });

  it('warns that a quicker pace of hands is no advice to hurry', async () => {
    await inEmptyFolder(async (cwd) => {
      const outcome = await swapOrHop(['tune', scenario, '--vary', 'pace.hands=1, 1.3', '--zone', '10 %'], { cwd });
      expect(outcome.stdout.replaceAll('\n', ' ')).toContain('not advice to hurry');
    });
  });

  it.each([
    [[], /which value\? --vary PATH=RANGE/],
    [['--vary', 'rules.aftr=2..5 images'], /rules\.aftr.*did you mean `after`|did you mean `rules\.after`/],
    [['--vary', 'rules.after=5..2 images'], /whose first end must be less/],
    [['--vary', 'rules.after=2..5 kg'], /--vary rules\.after: at `2 kg`/],
    [[...VARY, ...VARY], /--vary rules\.after is given twice/],
    [[...VARY, '--goal', 'least-tme'], /no goal is called `least-tme`; did you mean `least-time`\?/],
    [[...VARY, '--goal', 'most-yield'], /grants no time .*--hours/],
    [[...VARY, '--goal', 'most-yield', '--yield-at-least', '0.9'], /does not go with --goal most-yield/],
    [[...VARY, '--hours', '5'], /--hours goes with --goal most-yield only/],
    [[...VARY, '--hours', '5 d', '--goal', 'most-yield'], /--hours wants a number of hours above zero/],
    [[...VARY, '--yield-at-least', '90'], /did you mean `90 %`\?/],
    [[...VARY, '--confidence', '0.2'], /--confidence wants a share from 0\.5 to 0\.999/],
    [[...VARY, '--strategy', 'hopp'], /no strategy is called `hopp`; did you mean `hop`\?/],
    [[...VARY, '--max-campaigns', '5'], /--max-campaigns wants a whole number from 100/],
  ])('says what is wanted instead of %j, and exits with 2', async (options, message) => {
    const outcome = await swapOrHop(['tune', scenario, ...options]);
    expect(outcome).toMatchObject({ code: 2, stdout: '' });
    expect(outcome.stderr).toMatch(message);
  });
});
