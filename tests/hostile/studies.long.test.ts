import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inEmptyFolder, swapOrHop } from '../support/command.js';
import { filesOf } from '../support/files-of.js';
import { ACTING, harmlessFiles } from './files.js';
import { hostileScenario } from './words.js';

/** Commands with options that keep them short; those whose reports are made in `outputs.test.ts` stand there. */
const STUDIES: readonly (readonly [command: string, options: readonly string[]])[] = [
  ['breakeven', ['--vary', 'plan.regions=1..3 by 1']],
  ['sweep', ['--vary', 'pace.scan=1, 1.5']],
  ['sensitivity', []],
  ['midway', ['--done', 'state.csv', '--replications', '40']],
  ['tune', ['--vary', 'rules.after=2 images, none', '--zone', '20 %']],
];

async function reported(cwd: string, words: readonly string[]): Promise<string> {
  writeFileSync(join(cwd, 'hostile.yaml'), hostileScenario());
  const [command, ...options] = words;
  const { code, stdout, stderr } = await swapOrHop([command, 'hostile.yaml', ...options], { cwd });
  expect(code, stderr).toBe(0);
  return stdout + stderr;
}

describe.each(STUDIES)('%s on a scenario of hostile words', (command, options) => {
  harmlessFiles(() =>
    inEmptyFolder(async (cwd) => {
      if (command === 'midway') {
        writeFileSync(join(cwd, 'state.csv'), await reported(cwd, ['midway', '--template', '--quiet']));
      }
      const said = await reported(cwd, [command, ...options, '--out', 'report']);
      return [['what it says', said], ...filesOf(join(cwd, 'report'))];
    }),
  );
});

describe('hostile words', () => {
  it.each([['trace'], ['trace --json'], ['preview']])('act in nothing that %s says', async (line) => {
    await inEmptyFolder(async (cwd) => {
      expect(ACTING.exec(await reported(cwd, line.split(' ')))).toBeNull();
    });
  });

  it('act on no page of a trace', async () => {
    await inEmptyFolder(async (cwd) => {
      await reported(cwd, ['trace', '--html', 'trace.html']);
      const page = readFileSync(join(cwd, 'trace.html'), 'utf8');
      expect(ACTING.exec(page)).toBeNull();
      expect(page).not.toMatch(/<(?:script|iframe|object|embed|img|link|base|form)\b/iu);
    });
  });

  it('end no script of a lesson and begin none', async () => {
    await inEmptyFolder(async (cwd) => {
      await reported(cwd, ['lesson', '--out', 'hostile.html']);
      await swapOrHop(['lesson', '--out', 'usual.html'], { cwd });
      const [hostile, usual] = ['hostile.html', 'usual.html'].map((name) => readFileSync(join(cwd, name), 'utf8'));
      // The library's own script has some.
      const acting = new RegExp(ACTING, 'gu');
      for (const tag of [acting, /<script\b/giu, /<\/script\b/giu, /<(?:iframe|object|embed|img|link|base)\b/giu])
        expect(hostile.match(tag)?.length).toBe(usual.match(tag)?.length);
    });
  });
});
