import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';

const starter = readFileSync(join(root, 'scenarios/starters/ambient.yaml'), 'utf8');

/** Where the first occurrence of a text stands in another, as `line:column`. */
function place(text: string, of: string): string {
  const before = text.slice(0, text.indexOf(of)).split('\n');
  return `${before.length}:${(before.at(-1) ?? '').length + 1}`;
}

describe('a scenario with several faults', () => {
  const wrong = starter
    .replace('regionGap', 'regionGap')
    .replace('regions: 12', 'regoins: 12')
    .replace('lineRate: 1 Hz', 'lineRate: 1 nm')
    .replace('price: 25 EUR', 'price: 25')
    .replace('accept: 0.8', 'accept: 8');

  it.each(['compare', 'preview', 'trace'])(
    '%s shows them all at once, each with its place, and writes nothing',
    async (command) => {
      await inEmptyFolder(async (cwd) => {
        writeFileSync(join(cwd, 'wrong.yaml'), wrong);
        const outcome = await swapOrHop([command, 'wrong.yaml'], { cwd });
        const at = (text: string) => `wrong.yaml:${place(wrong, text)}  error`;
        expect(outcome.stderr).toContain(at('regoins: 12'));
        expect(outcome.stderr).toContain('did you mean `regions`?');
        expect(outcome.stderr).toContain(at('1 nm'));
        expect(outcome.stderr).toContain(at('25\n'));
        expect(outcome.stderr).toContain(at('8\n'));
        expect(outcome.stderr).toContain('4 errors in wrong.yaml; nothing was run or written');
        expect(outcome.stderr).not.toMatch(/^\s+at /m);
        expect(outcome).toMatchObject({ code: 2, stdout: '' });
        expect(readdirSync(cwd)).toEqual(['wrong.yaml']);
      });
    },
  );
});

describe('an impossible plan', () => {
  it.each<[string, string, string, RegExp]>([
    ['an image longer than every booking', 'lineRate: 1 Hz', 'lineRate: 0.001 Hz', /longer|fits/],
    ['a tip kind without sites on the chip', 'sites: { sharp: 50 }', 'sites: {}', /site/],
    ['regions that do not fit on the specimen', 'extent: 50 um', 'extent: 6 um', /fit/],
    ['a tip kind that nobody described', 'tip: sharp # a kind', 'tip: sharpest # a kind', /sharp/],
  ])('is refused: %s', async (_, right, wrong, message) => {
    await inEmptyFolder(async (cwd) => {
      expect(starter).toContain(right);
      writeFileSync(join(cwd, 'wrong.yaml'), starter.replace(right, wrong));
      const outcome = await swapOrHop(['compare', 'wrong.yaml'], { cwd });
      expect(outcome.stderr).toMatch(/wrong\.yaml:\d+:\d+ {2}error/);
      expect(outcome.stderr).toMatch(message);
      expect(outcome).toMatchObject({ code: 2, stdout: '' });
      expect(readdirSync(cwd)).toEqual(['wrong.yaml']);
    });
  });
});
