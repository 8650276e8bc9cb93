import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { root } from '../support/command.js';

/** Texts of all files with such an ending in folders of the repository, none longer than a person reads. */
export function textsIn(folders: readonly string[], ending: string, longest = 8000): readonly string[] {
  return folders.flatMap((folder) =>
    readdirSync(join(root, folder))
      .filter((name) => name.endsWith(ending))
      .sort()
      .map((name) => readFileSync(join(root, folder, name), 'utf8').slice(0, longest)),
  );
}

/** What people and programs put where it does not belong. */
const ODD = [
  '',
  ' ',
  '\t',
  '\n',
  '\r\n',
  ':',
  ': ',
  '- ',
  '"',
  "'",
  '{',
  '}',
  '[',
  ']',
  '&a ',
  '*a',
  '<<: *a',
  '!!binary ',
  '%YAML 1.1\n',
  '---\n',
  '...\n',
  '|\n',
  '? ',
  '~',
  'null',
  'NaN',
  '.inf',
  '-.inf',
  '1e999',
  '-1',
  '0x1F',
  '9'.repeat(400),
  '1e-400',
  'yes',
  '#',
  ',',
  ';',
  '\uFEFF',
  '\u202E',
  '\u0000',
  '\u001b[31m',
  '\u2028',
  '\uD800',
  '__proto__',
  'constructor',
  '=1+1',
  '</script>',
  '../../x',
  'a'.repeat(3000),
  '['.repeat(200),
];

interface Edit {
  readonly at: number;
  readonly length: number;
  readonly put: string;
  readonly from: number;
}

function edited(text: string, { at, length, put, from }: Edit): string {
  const place = Math.floor(at * text.length);
  const source = Math.floor(from * text.length);
  const piece = put === 'a piece' ? text.slice(source, source + length) : put;
  return text.slice(0, place) + piece + text.slice(place + (put === 'a piece' ? 0 : length));
}

/** One of these texts with a few places cut, doubled, or with something put in. */
export function spoiledTexts(texts: readonly string[]): fc.Arbitrary<string> {
  const share = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });
  const put = fc.oneof(
    fc.constantFrom('a piece', ...ODD),
    fc.string({ maxLength: 8 }),
    fc.string({ unit: 'binary', maxLength: 3 }),
  );
  const edit = fc.record({ at: share, length: fc.oneof(fc.nat(3), fc.nat(60)), put, from: share });
  return fc
    .tuple(fc.constantFrom(...texts), fc.array(edit, { minLength: 1, maxLength: 4 }))
    .map(([text, edits]) => edits.reduce(edited, text));
}
