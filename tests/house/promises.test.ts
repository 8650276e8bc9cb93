import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { root } from '../support/command.js';
import { nonEmpty, perhapsNone } from '../support/non-empty.js';

/** Rows of the tables of a page, without their heads. */
function rowsOf(page: string): readonly (readonly string[])[] {
  return readFileSync(join(root, page), 'utf8')
    .split('\n')
    .filter((line) => line.startsWith('| ') && !/^\| (?:promise|statement|-+) /.test(line))
    .map((line) => line.split(' | ').map((cell) => cell.replace(/^\| | \|$/g, '').trim()));
}

/** A file with the names of tests in it that stand behind it, up to the next file. */
function testsIn(cell: string): readonly (readonly [file: string, names: readonly string[]])[] {
  return [...cell.matchAll(/`((?:tests\/|\.ci\/)[^`]+)`([^`]*)/g)].map(([, file, names]) => [
    file,
    [...names.matchAll(/“([^”]+)”/g)].map(([, name]) => name.replace(/\\([*_])/g, '$1')),
  ]);
}

describe.each([
  ['promise', 'tests/PROMISES.md', 50],
  ['statement of the model', 'tests/MODEL.md', 200],
] as const)('every %s', (_, page, least) => {
  const rows = rowsOf(page);

  it('stands once in a row with what holds it, or is marked as open', () => {
    expect(rows.length).toBeGreaterThan(least);
    expect(new Set(rows.map(([said]) => said)).size).toBe(rows.length);
    for (const [said, held] of nonEmpty(rows)) {
      const named = testsIn(held);
      expect(named.length > 0 || held.startsWith('_Open_'), said).toBe(true);
      for (const [file, names] of perhapsNone(named)) expect(names.length, `${said} ${file}`).toBeGreaterThan(0);
    }
  });

  it.each(rows.flatMap(([, held]) => testsIn(held)))('is held by a test that exists: %s', (file, names) => {
    expect(existsSync(join(root, file)), file).toBe(true);
    // A name may be broken over lines by nothing but the quotes of its language.
    const text = readFileSync(join(root, file), 'utf8').replaceAll("\\'", "'");
    for (const name of nonEmpty(names)) expect(text).toContain(name);
  });
});
