import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shellLine, shellWords } from '../../src/scenario/shell-line.js';
import { inEmptyFolder } from '../support/command.js';
import { NAMES, standIn, wordsUnderShell } from '../support/under-shell.js';

const line = (file: string, seed: string) => shellLine('compare', file, { seed });

describe('a command line put on record', () => {
  it('reads back as the words that it was made of, whatever they hold', () => {
    const word = fc.oneof(fc.string(), fc.constantFrom("it's", '\\', "'", "'\\''", ' ', '\n', '--seed', '$x `y` "z"'));
    fc.assert(
      fc.property(word, word, (file, value) => {
        fc.pre(!file.startsWith('-') && !value.startsWith('-'));
        expect(shellWords(line(file, value))).toEqual(['swap-or-hop', 'compare', file, '--seed', value]);
      }),
      { seed: 20261125, numRuns: 2000 },
    );
  });

  it('is run by a shell as the words that it was made of, and as nothing else', async () => {
    await inEmptyFolder((cwd) => {
      const bin = standIn(cwd);
      const sign = fc.constantFrom(...'ab \t\n\'"`$(){}[]<>|&;*?~#!=\\%^-,:/.\u00e4'.split(''), 'touch pwned');
      const word = fc.array(sign, { maxLength: 12 }).map((signs) => signs.join(''));
      const random = fc.sample(fc.tuple(word, word), { seed: 20261129, numRuns: 1500 });
      const pairs = [...NAMES.map((name) => [name, name] as const), ...random];
      const words = wordsUnderShell(pairs.map(([file, seed]) => line(file, seed)).join('\n'), cwd, bin);
      const wanted = pairs.flatMap(([file, seed]) => [
        ...['compare', file.startsWith('-') ? `./${file}` : file],
        ...(seed.startsWith('-') ? [`--seed=${seed}`] : ['--seed', seed]),
      ]);
      expect(words).toEqual(wanted);
      return Promise.resolve();
    });
  });

  it('keeps what begins with a dash from being read as an option', () => {
    expect(shellWords(line('-x.yaml', '--out'))).toEqual(['swap-or-hop', 'compare', './-x.yaml', '--seed=--out']);
  });

  it('leaves out what was not given, and repeats what was given several times', () => {
    const text = shellLine('sweep', 'a b.yaml', { vary: ['x=1, 2', 'y=3'], seed: undefined });
    expect(text).toBe("swap-or-hop sweep 'a b.yaml' --vary 'x=1, 2' --vary y=3");
  });

  it('is no line where a quote is left open', () => {
    for (const text of ["swap-or-hop compare 'x", 'swap-or-hop \\']) expect(shellWords(text)).toBeNull();
  });
});
