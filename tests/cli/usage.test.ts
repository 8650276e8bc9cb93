import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { expectRefusal } from '../support/refusal.js';

const scenario = join(root, 'scenarios/starters/ambient.yaml');

describe('a slip on the command line ends with exit code 2, one clear message and nothing on stdout', () => {
  it.each<[string, string[], RegExp]>([
    ['no command', [], /no command is given; expected one of init, .*compare, .*trace, /],
    ['a command misspelt', ['compar', scenario], /unknown command `compar`; did you mean `compare`\?/],
    ['no file', ['compare'], /missing argument `<file>`/],
    ['two files', ['compare', scenario, scenario], /unexpected argument/],
    ['an option misspelt', ['compare', scenario, '--sed', '3'], /unknown option --sed; did you mean --seed\?/],
    ['an option without its value', ['compare', scenario, '--seed'], /a value is wanted after --seed/],
    [
      'a word for a number',
      ['compare', scenario, '--replications', 'abc'],
      /--replications wants a whole number .*"abc"/,
    ],
    ['half a replication', ['compare', scenario, '--replications', '2.5'], /--replications wants a whole number/],
    ['a negative number', ['trace', scenario, '--replication=-1'], /--replication wants a whole number/],
    [
      'a strategy that is not there',
      ['trace', scenario, '--strategy', 'hopp'],
      /no strategy is called `hopp`; did you mean `hop`\?/,
    ],
    ['a setting misspelt', ['init', 'x.yaml', '--setting', 'ambint'], /did you mean `ambient`\?/],
    ['no setting', ['init', 'x.yaml'], /--setting ambient\|vacuum\|soft-sample\|multi-tip/],
    ['a file that is not there', ['preview', 'nowhere.yaml'], /nowhere\.yaml: cannot be read: no such file or folder/],
    ['a folder for a file', ['preview', root], /this is a folder/],
  ])('%s', async (_, args, message) => {
    await inEmptyFolder(async (cwd) => {
      expectRefusal(await swapOrHop(args, { cwd }), message);
      expect(readdirSync(cwd)).toEqual([]);
    });
  });

  it('names every unknown option at once', async () => {
    const outcome = await swapOrHop(['compare', scenario, '--sede', '1', '--jason']);
    expectRefusal(outcome, /--sede[\s\S]*--jason/);
  });
});

describe('help and version', () => {
  it.each(['--help', '-h'])('%s goes to stdout with exit code 0 and names every command', async (option) => {
    const outcome = await swapOrHop([option]);
    for (const command of ['init', 'preview', 'compare', 'trace'])
      expect(outcome.stdout).toContain(`swap-or-hop ${command}`);
    expect(outcome).toMatchObject({ code: 0, stderr: '' });
  });

  it('--version prints the version alone', async () => {
    const outcome = await swapOrHop(['--version']);
    expect(outcome.stdout).toMatch(/^\d+\.\d+\.\d+\S*\n$/);
    expect(outcome).toMatchObject({ code: 0, stderr: '' });
  });
});
