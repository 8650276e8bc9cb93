import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';

/** Names of which a shell would make more than a word, were they not quoted. */
export const NAMES: readonly string[] = [
  'sp ace/my $(touch pwned)',
  "';touch pwned;'",
  '`touch pwned`',
  '-dash',
  '--out=x',
  '$HOME',
  '~',
  '*',
  '#note',
  'a&touch pwned&b',
  '"$(touch pwned)"',
  'back\\slash',
  'a|tee pwned',
  'a>pwned',
  'a!b',
  '=ls',
];

/** A program of our name, for the shell, that only tells what words it was given. */
export function standIn(folder: string): string {
  const bin = join(folder, 'bin');
  mkdirSync(bin);
  writeFileSync(join(bin, 'swap-or-hop'), '#!/bin/sh\nprintf \'%s\\0\' "$@"\n');
  chmodSync(join(bin, 'swap-or-hop'), 0o755);
  return bin;
}

/** The words that our program would be given by a shell into which a line is pasted that was shown. */
export function wordsUnderShell(line: string, cwd: string, bin: string): readonly string[] {
  const ran = spawnSync('sh', ['-c', line], {
    cwd,
    encoding: 'utf8',
    env: { ...process.env, PATH: `${bin}:${process.env['PATH'] ?? ''}` },
  });
  expect(ran.stderr).toBe('');
  expect(existsSync(join(cwd, 'pwned'))).toBe(false);
  return ran.stdout.split('\0').slice(0, -1);
}
