import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { NAMES, standIn, wordsUnderShell } from '../support/under-shell.js';

const small = join(root, 'tests/support/small.yaml');

function shownIn(text: string, pattern = /swap-or-hop .*/): string {
  return pattern.exec(text)?.[0] ?? `nothing is shown in: ${text}`;
}

describe('a command that is shown', () => {
  it('by preview and init is run by a shell on the very file, whatever that is called', async () => {
    await inEmptyFolder(async (cwd) => {
      const bin = standIn(cwd);
      for (const file of ['sp ace/my $(touch pwned).yaml', "';touch pwned;'.yaml", './-dash.yaml']) {
        mkdirSync(join(cwd, dirname(file)), { recursive: true });
        const begun = await swapOrHop(['init', '--setting', 'ambient', file], { cwd });
        expect(wordsUnderShell(shownIn(begun.stderr), cwd, bin)).toEqual(['preview', file]);
        const seen = await swapOrHop(['preview', file], { cwd });
        expect(wordsUnderShell(shownIn(seen.stderr), cwd, bin)).toEqual(['compare', file]);
      }
    });
  });

  it('by fit --into names the scenario, and the options for kinds that it lacks do what is said of them', async () => {
    await inEmptyFolder(async (cwd) => {
      const bin = standIn(cwd);
      const scenario = 'my $(touch pwned).yaml';
      copyFileSync(small, join(cwd, scenario));
      const rows = [...NAMES, 'a=b', "it's"].map((kind) => `"${kind.replaceAll('"', '""')}",9,broken\n`);
      writeFileSync(join(cwd, 'log.csv'), `kind,images,ended\n${rows.join('')}`);
      const into = ['--into', scenario, '--bootstrap', '0', '--out', 'out'];
      const refused = await swapOrHop(['fit', 'log.csv', ...into], { cwd });
      const shown = [...refused.stderr.matchAll(/say which it is with (.*), or leave them out with (.*)/g)];
      expect(shown).toHaveLength(rows.length);
      const options = shown.map(([, named, left], place) => (place % 3 === 2 ? left : named)).join(' ');
      const words = wordsUnderShell(`swap-or-hop fit log.csv ${options}`, cwd, bin);
      const fitted = await swapOrHop([...words, ...into], { cwd });
      expect(fitted).toMatchObject({ code: 0 });
      const left = rows.filter((_, place) => place % 3 === 2).length;
      expect(fitted.stdout).toContain(`${rows.length - left} of ${rows.length} rows`);
      expect(wordsUnderShell(shownIn(fitted.stderr), cwd, bin)).toEqual(['compare', scenario]);
    });
  });

  it('for a shard that is missing makes that shard', async () => {
    await inEmptyFolder(async (cwd) => {
      const bin = standIn(cwd);
      const file = 'my $(touch pwned).yaml';
      copyFileSync(small, join(cwd, file));
      const seed = "`touch pwned`'";
      const asked = ['compare', file, '--seed', seed, '--replications', '4', '--draws', '40'];
      const made = await swapOrHop([...asked, '--shard', '1/2', '--out', 'the shards'], { cwd });
      const merged = await swapOrHop(['merge', made.stdout.trim()], { cwd });
      const words = wordsUnderShell(shownIn(merged.stderr, /swap-or-hop compare .*/), cwd, bin);
      expect(words).toEqual([
        ...['compare', file, '--seed', seed, '--replications', '4', '--draws', '40', '--out', 'the shards'],
        ...['--shard', '2/2'],
      ]);
    });
  });

  it('by verify is quoted anew, whoever wrote the summary', async () => {
    await inEmptyFolder(async (cwd) => {
      const bin = standIn(cwd);
      copyFileSync(small, join(cwd, 'my.yaml'));
      await swapOrHop(['compare', 'my.yaml', '--replications', '2', '--draws', '40', '--out', 'out'], { cwd });
      const path = join(cwd, 'out/summary.json');
      const summary = z.looseObject({}).parse(JSON.parse(readFileSync(path, 'utf8')));
      const command = 'swap-or-hop compare my.yaml --replications 2 --draws 40 --seed=$(touch${IFS}pwned)';
      writeFileSync(path, JSON.stringify({ ...summary, command }));
      const found = await swapOrHop(['verify', 'out/summary.json'], { cwd });
      expect(found.code).toBe(1);
      const words = wordsUnderShell(shownIn(found.stderr, /swap-or-hop compare .*/), cwd, bin);
      expect(words.at(-1)).toBe('--seed=$(touch${IFS}pwned)');
    });
  });
});
