import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { writeOutputFolder } from '../../src/cli/output-folder.js';
import { plainName } from '../../src/cli/plain-name.js';
import { readText } from '../../src/cli/text-file.js';
import { writeWholeFile } from '../../src/execution/machine/whole-file.js';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';

const REPORT = new Map([
  ['report.html', 'page'],
  ['summary.json', '{"format": "swap-or-hop summary"}'],
  ['charts/finish.svg', '<svg aria-labelledby="finish-title finish-desc"/>'],
]);
const read = (...path: string[]) => readFileSync(join(...path), 'utf8');

describe('a folder called after a file', () => {
  it.each([
    ['plan.yaml', 'plan'],
    ['a/b/plan.v2.yaml', 'plan.v2'],
    ['...yaml', 'report'],
    ['..yaml', 'report'],
    ['x/..', 'report'],
    ['con.yaml', 'con_'],
    ['LPT1.a.yaml', 'LPT1_.a'],
    ['a\u001b[31m:b\u202e.yaml', 'a_[31m_b_'],
    ['C:\\x.yaml', 'C__x'],
  ])('of %j is %s, wherever that leads', (file, name) => {
    expect(plainName(file)).toBe(name);
    expect(resolve('reports', plainName(file)).startsWith(resolve('reports') + '/')).toBe(true);
  });
});

describe('a report', () => {
  it('never writes through links in its folder, and keeps them and all that a person laid there', async () => {
    await inEmptyFolder((cwd) => {
      const [out, elsewhere] = [join(cwd, 'out'), join(cwd, 'elsewhere')];
      mkdirSync(elsewhere);
      writeFileSync(join(elsewhere, 'page'), 'precious');
      writeOutputFolder(out, REPORT);
      symlinkSync(elsewhere, join(out, 'link'));
      writeFileSync(join(out, 'charts/mine.svg'), '<svg/>');
      writeFileSync(join(out, 'picture.svg'), '<svg/>');
      mkdirSync(join(out, 'data'));
      writeFileSync(join(out, 'data/raw.csv'), '1');
      writeOutputFolder(out, new Map([...REPORT, ['report.html', 'new']]));
      expect(read(out, 'report.html')).toBe('new');
      expect(readdirSync(out).sort()).toEqual(['charts', 'data', 'link', 'picture.svg', 'report.html', 'summary.json']);
      expect(readdirSync(join(out, 'charts')).sort()).toEqual(['finish.svg', 'mine.svg']);
      expect(readdirSync(elsewhere)).toEqual(['page']);
      expect(read(elsewhere, 'page')).toBe('precious');
      expect(readdirSync(cwd).sort()).toEqual(['elsewhere', 'out']);
      return Promise.resolve();
    });
  });

  it('does not follow a link in the place of its charts or of its page', async () => {
    await inEmptyFolder((cwd) => {
      const [out, elsewhere] = [join(cwd, 'out'), join(cwd, 'elsewhere')];
      mkdirSync(elsewhere);
      mkdirSync(out);
      writeFileSync(join(out, 'summary.json'), REPORT.get('summary.json') ?? '');
      writeFileSync(join(cwd, 'letter'), 'precious');
      symlinkSync(elsewhere, join(out, 'charts'));
      symlinkSync(join(cwd, 'letter'), join(out, 'report.html'));
      writeOutputFolder(out, REPORT);
      expect(readdirSync(elsewhere)).toEqual([]);
      expect(read(cwd, 'letter')).toBe('precious');
      expect(read(out, 'report.html')).toBe('page');
      expect(readdirSync(join(out, 'charts'))).toEqual(['finish.svg']);
      return Promise.resolve();
    });
  });

  it('takes no folder that somebody stands in, and leaves nothing of another study beside itself', async () => {
    await inEmptyFolder(async (cwd) => {
      const outcome = await swapOrHop(['compare', join(root, 'tests/support/small.yaml'), '--out', '.'], { cwd });
      expect(outcome).toMatchObject({ code: 2, stdout: '' });
      expect(outcome.stderr).toContain('the folder that you are in');
      const out = join(cwd, 'out');
      writeOutputFolder(out, new Map([...REPORT, ['proposal.md', 'of a budget']]));
      writeOutputFolder(out, REPORT);
      expect(existsSync(join(out, 'proposal.md'))).toBe(false);
    });
  });
});

describe('a single file', () => {
  it('replaces no device and no pipe, follows a link of the user, and stays as private as it was', async () => {
    await inEmptyFolder((cwd) => {
      const file = (name: string) => join(cwd, name);
      spawnSync('mkfifo', [file('pipe')]);
      expect(() => {
        writeWholeFile(file('pipe'), 'x');
      }).toThrow('is no ordinary file');
      expect(() => {
        writeWholeFile('/dev/null', 'x');
      }).toThrow('is no ordinary file');
      expect(() => readText(file('pipe'), { what: 'a log', form: 'text', most: 10 })).toThrow('no ordinary file');
      writeFileSync(file('mine'), 'old');
      chmodSync(file('mine'), 0o600);
      symlinkSync(file('mine'), file('link'));
      writeWholeFile(file('link'), 'new');
      expect(read(cwd, 'mine')).toBe('new');
      expect(spawnSync('stat', ['-c', '%a %F', file('mine'), file('link')], { encoding: 'utf8' }).stdout).toBe(
        '600 regular file\n777 symbolic link\n',
      );
      expect(readdirSync(cwd).sort()).toEqual(['link', 'mine', 'pipe']);
      return Promise.resolve();
    });
  });
});

describe('names that a terminal would obey', () => {
  it('are written out in messages', async () => {
    await inEmptyFolder(async (cwd) => {
      const outcome = await swapOrHop(['preview', 'a\u001b]0;owned\u0007\u009b31m\u202e.yaml'], { cwd });
      expect(outcome.code).toBe(2);
      expect(outcome.stderr).toContain('a\\u{1b}]0;owned\\u{7}\\u{9b}31m\\u{202e}.yaml');
      expect(outcome.stderr).not.toMatch(/(?!\n)\p{Cc}|\p{Bidi_Control}/u);
    });
  });
});
