import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { run } from '../../src/cli/run.js';
import { ALL, HOSTILE } from '../hostile/words.js';
import { WORDS } from './corpus.js';
import type { Target } from './target.js';

const COMMANDS = [
  'init',
  'fit',
  'preview',
  'compare',
  'breakeven',
  'sweep',
  'sensitivity',
  'budget',
  'tune',
  'midway',
  'trace',
  'lesson',
  'merge',
  'verify',
];
/** Options of all commands, and some of none. */
const OPTIONS = [
  'out',
  'seed',
  'json',
  'replications',
  'max-replications',
  'draws',
  'quiet',
  'no-color',
  'vary',
  'strategy',
  'zone',
  'chance',
  'granted',
  'done',
  'template',
  'example',
  'replication',
  'html',
  'setting',
  'force',
  'into',
  'radii',
  'tip',
  'column',
  'unit',
  'per',
  'distribution',
  'date',
  'bootstrap',
  'all',
  'threads',
  'shard',
  'scenario',
  'goal',
  'confidence',
  'help',
  'version',
  'sede',
  '',
  '__proto__',
  'constructor',
  'a.b',
  'x'.repeat(500),
];
/** Files that there are: none is a scenario, so that nothing is run for long. */
const FILES = ['text.yaml', 'broken.yaml', 'log.csv', 'folder', 'missing.yaml', '/dev/null', '/dev/full', ''];
const VALUES = [
  '1',
  '0',
  '-1',
  '40',
  '1e9',
  'NaN',
  'Infinity',
  '2/3',
  '0/0',
  '8 h',
  '10 %',
  'plan.regions=2..4 by 1',
  'Tu 14:00',
  'a=b',
  '=',
  'swap',
  'ambient',
  'taken',
];

const word = fc.oneof(
  { arbitrary: fc.constantFrom(...COMMANDS), weight: 3 },
  { arbitrary: fc.constantFrom(...FILES), weight: 3 },
  { arbitrary: fc.constantFrom(...VALUES), weight: 2 },
  { arbitrary: fc.constantFrom(...HOSTILE, ALL), weight: 1 },
  { arbitrary: fc.string({ unit: 'binary', maxLength: 12 }), weight: 1 },
);
const option = fc
  .tuple(fc.constantFrom(...OPTIONS), fc.option(word), fc.boolean())
  .map(([name, value, isJoined]) =>
    value === null ? [`--${name}`] : isJoined ? [`--${name}=${value}`] : [`--${name}`, value],
  );
const lines: fc.Arbitrary<readonly string[]> = fc
  .tuple(
    fc.constantFrom(...COMMANDS, ''),
    fc.constantFrom(...FILES),
    fc.array(
      fc.oneof(
        option,
        word.map((each) => [each]),
      ),
      { maxLength: 6 },
    ),
  )
  .map(([command, file, rest]) => [command, file, ...rest.flat()].filter((each, i) => i > 1 || each !== ''));

/** Runs a command line here, in a folder of its own, with all that it says caught. */
async function said(
  argv: readonly string[],
): Promise<{ readonly code: number; readonly text: string; readonly left: readonly string[] }> {
  const folder = mkdtempSync(join(tmpdir(), 'swap-or-hop-fuzz-'));
  const [place, out, err] = [
    process.cwd(),
    process.stdout.write.bind(process.stdout),
    process.stderr.write.bind(process.stderr),
  ];
  let text = '';
  const caught = (part: string | Uint8Array): boolean => {
    text += typeof part === 'string' ? part : Buffer.from(part).toString();
    return true;
  };
  try {
    writeFileSync(join(folder, 'text.yaml'), 'just words');
    writeFileSync(join(folder, 'broken.yaml'), `title: "${'x'.repeat(10)}\nplan: {`);
    writeFileSync(join(folder, 'log.csv'), 'tip;kind\n1;2\n');
    writeFileSync(join(folder, 'taken'), 'a letter');
    mkdirSync(join(folder, 'folder'));
    process.chdir(folder);
    process.stdout.write = caught;
    process.stderr.write = caught;
    const code = await run(argv);
    return { code, text, left: readdirSync(folder) };
  } finally {
    process.stdout.write = out;
    process.stderr.write = err;
    process.chdir(place);
    rmSync(folder, { recursive: true, force: true });
  }
}

const commandLine: Target<readonly string[]> = {
  promise: 'any command line without a sound scenario is refused in plain words, with nothing that acts on a terminal',
  cases: lines,
  form: WORDS,
  check: async (argv) => {
    const { code, text } = await said(argv);
    const shown = `${JSON.stringify(argv)}\n${text}`;
    // The scripts of the lesson are only where the program is built.
    if (text.includes('fault of swap-or-hop') && !text.includes('lesson/bundles/'))
      throw new Error(`a fault of its own: ${shown}`);
    if (code !== 0 && text.trim() === '') throw new Error(`ended with ${String(code)} without a word: ${shown}`);
    if (/(?![\n\t])\p{Cc}|\p{Bidi_Control}/u.test(text)) throw new Error(`acts on a terminal: ${shown}`);
    return `ended with ${String(code)}`;
  },
};

export const COMMAND_TARGETS = { 'command line': commandLine };
