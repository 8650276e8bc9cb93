import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { copyFileSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { FEW_LIVES } from '../support/fitted-log.js';

const read = (...path: string[]) => readFileSync(join(...path), 'utf8');

/** Every study, as short as it gets, with all files that it can read; and the folder of its report. */
const STUDIES: readonly (readonly [name: string, words: readonly string[], folder: string])[] = [
  ['compare', ['compare', 'small.yaml', '--replications', '12', '--seed=-1 it\'s "new"'], 'small'],
  ['budget', ['budget', 'small.yaml', '--replications', '100', '--granted', '2 h', '--chance', '95'], 'small-budget'],
  ['breakeven', ['breakeven', 'small.yaml', '--vary', 'plan.regions=2..8 by 2'], 'small-breakeven'],
  ['sweep', ['sweep', 'small.yaml', '--vary', 'pace.scan=1, 1.5', '--vary', 'plan.regions=2, 3'], 'small-sweep'],
  ['sensitivity', ['sensitivity', 'small.yaml', '--all', '--measure', 'cost'], 'small-sensitivity'],
  ['midway', ['midway', 'small.yaml', '--done', 'small-state.csv', '--replications', '20'], 'small-midway'],
  ['occupancy', ['occupancy', 'small.yaml', '--replications', '40'], 'small-occupancy'],
  [
    'hindcast',
    ['hindcast', 'small.yaml', '--finished', 'small-finished.csv', '--replications', '100'],
    'small-hindcast',
  ],
  ['worth', ['worth', 'small.yaml', '--draws', '200'], 'small-worth'],
  ['tune', ['tune', 'small.yaml', '--vary', 'rules.after=2 images, none', '--zone', '10 %'], 'small-tune'],
  ['fit', ['fit', 'log.csv', '--radii', 'radii.csv', '--into', 'small.yaml', '--bootstrap', '2'], 'log-fit'],
];

/** A scenario, a state, finished campaigns and a log with its radii, side by side. */
async function inFolderWithFiles(work: (cwd: string) => Promise<void>): Promise<void> {
  await inEmptyFolder(async (cwd) => {
    for (const file of ['small.yaml', 'small-state.csv', 'small-finished.csv'])
      copyFileSync(join(root, 'tests/support', file), join(cwd, file));
    writeFileSync(join(cwd, 'log.csv'), FEW_LIVES);
    writeFileSync(join(cwd, 'radii.csv'), RADII);
    await work(cwd);
  });
}

const RADII = [
  'tip,kind,path (mm),load (nN),radius (nm),error (nm)',
  ...['a', 'b', 'c'].flatMap((tip, i) => [0, 4, 9].map((path, j) => `${tip},sharp,${path},5,${8 + i + 3 * j},0.5`)),
].join('\n');

/** The same with a small comparison made of it, whose summary lies at `reports/small/summary.json`. */
async function withComparison(work: (cwd: string, summary: string) => Promise<void>): Promise<void> {
  await inFolderWithFiles(async (cwd) => {
    const made = await swapOrHop(['compare', 'small.yaml', '--replications', '12', '--quiet'], { cwd });
    expect(made.code).toBe(0);
    await work(cwd, join(cwd, 'reports/small/summary.json'));
  });
}

const change = (file: string, from: string | RegExp, to: string) => {
  const text = read(file);
  expect(text.search(from)).toBeGreaterThan(-1);
  writeFileSync(
    file,
    text.replace(from, () => to),
  );
};

describe.each(STUDIES)('verify, of %s', (_, words, folder) => {
  it('makes the report again, the same to the byte, and changes nothing', async () => {
    await inFolderWithFiles(async (cwd) => {
      const given = readdirSync(cwd);
      expect((await swapOrHop([...words, '--quiet'], { cwd })).code).toBe(0);
      const before = read(cwd, 'small.yaml');
      const outcome = await swapOrHop(['verify', `reports/${folder}/summary.json`], { cwd });
      expect(outcome).toMatchObject({ code: 0, stderr: '' });
      const entries = readdirSync(join(cwd, 'reports', folder), { recursive: true, withFileTypes: true });
      const others = entries.filter((entry) => entry.isFile()).length - 1;
      const [first, second] = outcome.stdout.trimEnd().split('\n');
      expect(first).toBe('summary.json: the same to the byte');
      expect(second).toContain(`${others} other files of its report: the same to the byte (`);
      expect(outcome.stdout).not.toContain('not ');
      expect(read(cwd, 'small.yaml')).toBe(before);
      expect(readdirSync(cwd).sort()).toEqual([...given, 'reports'].sort());
    });
  });
});

describe('verify', () => {
  it('shows what differs, with both values, and ends with exit code 1', async () => {
    await withComparison(async (cwd, summary) => {
      change(summary, '"replications": 12,', '"replications": 13,');
      change(join(cwd, 'reports/small/methods.md'), 'Three', 'Thrice');
      rmSync(join(cwd, 'reports/small/replications.csv'));
      const outcome = await swapOrHop(['verify', summary], { cwd });
      expect(outcome.code).toBe(1);
      expect(outcome.stdout).toMatch(/differs in 1 value:\nPlace +It says +Made again\nreplications +13 +12\n/);
      expect(outcome.stdout).toContain('1 other file of its report: not the same (methods.md)');
      expect(outcome.stdout).toContain('not beside it, so not compared (replications.csv)');
      expect(outcome.stderr).toContain('is not what its command line gives here: swap-or-hop compare small.yaml');
    });
  });

  it('says first that another version, commit or machine made it, and holds all else against it', async () => {
    await withComparison(async (cwd, summary) => {
      for (const page of ['brief.html', 'explore.html', 'report.html', 'methods.md'])
        rmSync(join(cwd, 'reports/small', page));
      change(summary, /"version": "[^"]*", "commit": (?:"[^"]*"|null)/, '"version": "0.0.1", "commit": "abc"');
      change(summary, /"architecture": "[^"]*"/, '"architecture": "pdp11"');
      const outcome = await swapOrHop(['verify', summary], { cwd });
      const lines = outcome.stdout.split('\n');
      expect(lines[0]).toMatch(/^It was made by swap-or-hop 0\.0\.1, commit abc, and this is swap-or-hop \d/);
      expect(lines[1]).toMatch(/^It was made on .*, pdp11, Node .*, and this is /);
      expect(lines[2]).toBe('summary.json: the same to the byte');
      expect(outcome.code).toBe(0);
    });
  });

  it('wants the files as they were, and finds them by their bytes wherever they are said to lie', async () => {
    await withComparison(async (cwd, summary) => {
      mkdirSync(join(cwd, 'away'));
      renameSync(join(cwd, 'small.yaml'), join(cwd, 'away/old.yaml'));
      const missing = await swapOrHop(['verify', summary], { cwd });
      expect(missing).toMatchObject({ code: 2, stdout: '' });
      expect(missing.stderr).toMatch(
        /small\.yaml lies neither beside the summary nor here; small\.yaml had [0-9a-f]{64}/,
      );
      const found = await swapOrHop(['verify', summary, '--input', 'away/old.yaml'], { cwd });
      expect(found.code).toBe(0);
      change(join(cwd, 'away/old.yaml'), 'Three', 'Four');
      const other = await swapOrHop(['verify', summary, '--input', 'away/old.yaml'], { cwd });
      expect(other).toMatchObject({ code: 2, stdout: '' });
      expect(other.stderr).toContain('no file that was read had that');
      renameSync(join(cwd, 'away/old.yaml'), join(cwd, 'small.yaml'));
      const changed = await swapOrHop(['verify', summary], { cwd });
      expect(changed).toMatchObject({ code: 2, stdout: '' });
      expect(changed.stderr).toContain('small.yaml is not what was read');
    });
  });

  it('leaves nothing behind; what a run that was killed left, the next one clears away', async () => {
    await withComparison(async (cwd, summary) => {
      const temporary = join(cwd, 'temporary');
      mkdirSync(temporary);
      const words = [join(root, 'dist/cli/main.js'), 'verify', summary];
      const surroundings = { cwd, env: { ...process.env, TMPDIR: temporary } };
      const child = spawn(process.execPath, words, { ...surroundings, stdio: 'ignore' });
      const ended = once(child, 'exit');
      while (child.exitCode === null && readdirSync(temporary).length === 0)
        await new Promise((resolve) => setTimeout(resolve, 5));
      child.kill('SIGKILL');
      await ended;
      expect(readdirSync(temporary)).toHaveLength(1);
      expect(spawnSync(process.execPath, words, surroundings).status).toBe(0);
      expect(readdirSync(temporary)).toEqual([]);
    });
  });

  let made = '';

  beforeAll(async () => {
    await withComparison((_, summary) => {
      made = read(summary);
      return Promise.resolve();
    });
  });

  it.each<[string, string | RegExp, string, RegExp]>([
    ['no summary', /^[^]*$/, 'title: x\n', /this is no JSON/],
    ['one that does not say how it was made', /"command": .*\n/, '\n', /does not say how it was made.*`command`/],
    ['one that writes elsewhere', '--replications 12', '--out /', /has `--out`, which is not run again/],
    ['one that writes into another file', '--replications 12', '--into small.yaml', /has `--into`, which is not/],
    ['another command', 'hop compare', 'hop init', /makes no report that could be compared/],
    ['a file in another folder', '"file": "small.yaml", "sha', '"file": "../small.yaml", "sha', /it has folders in it/],
    ['a line with an open quote', '--replications 12', "'", /its command line cannot be read/],
    ['one that was stopped', '"rule": "fixed"', '"rule": "interrupted"', /was interrupted and cannot be repeated/],
    ['a value that is refused', '--replications 12', '--replications x', /cannot be made again here:\n.*whole number/],
  ])('refuses with exit code 2, and writes nothing: %s', async (_, from, to, message) => {
    await inFolderWithFiles(async (cwd) => {
      const summary = join(cwd, 'summary.json');
      writeFileSync(summary, made);
      change(summary, from, to);
      const outcome = await swapOrHop(['verify', summary], { cwd });
      expect(outcome.stderr).toMatch(message);
      expect(outcome).toMatchObject({ code: 2, stdout: '' });
      expect(readdirSync(cwd)).toHaveLength(6);
    });
  });
});
