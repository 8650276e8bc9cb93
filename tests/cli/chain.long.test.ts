import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { nonEmpty } from '../support/non-empty.js';

describe.each(['ambient', 'vacuum', 'soft-sample', 'multi-tip'])('from nothing to a report, setting %s', (setting) => {
  it('init, preview, compare and trace follow each other as each of them says', async () => {
    await inEmptyFolder(async (cwd) => {
      const init = await swapOrHop(['init', 'mine.yaml', '--setting', setting], { cwd });
      expect(init).toMatchObject({ code: 0, stdout: '' });
      expect(init.stderr).toContain('swap-or-hop preview mine.yaml');

      const preview = await swapOrHop(['preview', 'mine.yaml'], { cwd });
      expect(preview.code).toBe(0);
      expect(preview.stdout).toContain('assumed');
      expect(preview.stderr).toContain('swap-or-hop compare mine.yaml');
      expect(readdirSync(cwd)).toEqual(['mine.yaml']);

      const compare = await swapOrHop(['compare', 'mine.yaml', '--replications', '20', '--quiet'], { cwd });
      expect(compare).toMatchObject({ code: 0, stderr: '' });

      const trace = await swapOrHop(['trace', 'mine.yaml', '--strategy', 'hop', '--replication', '3'], { cwd });
      expect(trace.code).toBe(setting === 'multi-tip' ? 2 : 0);
    });
  });
});

describe('init', () => {
  it('refuses to overwrite a file unless told to', async () => {
    await inEmptyFolder(async (cwd) => {
      writeFileSync(join(cwd, 'mine.yaml'), 'precious');
      const refused = await swapOrHop(['init', 'mine.yaml', '--setting', 'vacuum'], { cwd });
      expect(refused).toMatchObject({ code: 2, stdout: '' });
      expect(refused.stderr).toContain('--force');
      expect(readFileSync(join(cwd, 'mine.yaml'), 'utf8')).toBe('precious');
      expect((await swapOrHop(['init', 'mine.yaml', '--setting', 'vacuum', '--force'], { cwd })).code).toBe(0);
      expect(readFileSync(join(cwd, 'mine.yaml'), 'utf8')).toContain('title:');
    });
  });

  it('leads an editor from the new file to the schema', async () => {
    await inEmptyFolder(async (cwd) => {
      await swapOrHop(['init', 'mine.yaml', '--setting', 'ambient'], { cwd });
      const path = /\$schema=(.*)$/m.exec(readFileSync(join(cwd, 'mine.yaml'), 'utf8'))?.[1] ?? '';
      expect(resolve(dirname(join(cwd, 'mine.yaml')), path)).toBe(join(root, 'shared/scenario.schema.json'));
    });
  });

  it('fails with exit code 1 where the folder is not there', async () => {
    await inEmptyFolder(async (cwd) => {
      const outcome = await swapOrHop(['init', 'nowhere/mine.yaml', '--setting', 'ambient'], { cwd });
      expect(outcome.stderr).toMatch(/cannot be written: no such file or folder/);
      expect(outcome).toMatchObject({ code: 1, stdout: '' });
    });
  });
});

describe('trace', () => {
  const scenario = join(root, 'scenarios/starters/ambient.yaml');

  it('prints a table, or one JSON object a line with --json', async () => {
    const table = await swapOrHop(['trace', scenario, '--strategy', 'hop', '--replication', '2']);
    expect(table.code).toBe(0);
    expect(table.stdout).toContain('approach');
    const lines = await swapOrHop(['trace', scenario, '--strategy', 'hop', '--replication', '2', '--json']);
    const events = lines.stdout
      .trim()
      .split('\n')
      .map((line): unknown => JSON.parse(line));
    expect(events.length).toBeGreaterThan(20);
    for (const event of nonEmpty(events)) expect(z.looseObject({}).safeParse(event).success).toBe(true);
  });

  it('writes a page that stands alone with --html', async () => {
    await inEmptyFolder(async (cwd) => {
      const outcome = await swapOrHop(['trace', scenario, '--html', 'one.html'], { cwd });
      expect(outcome).toMatchObject({ code: 0, stdout: '' });
      expect(outcome.stderr).toContain('wrote one.html');
      const page = readFileSync(join(cwd, 'one.html'), 'utf8');
      expect(page).toContain("default-src 'none'");
      expect(page).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)/);
    });
  });
});

describe('preview', () => {
  it('is one JSON document with --json', async () => {
    const outcome = await swapOrHop(['preview', join(root, 'scenarios/starters/ambient.yaml'), '--json', '--quiet']);
    expect(outcome).toMatchObject({ code: 0, stderr: '' });
    expect(
      z.looseObject({ plan: z.looseObject({ images: z.literal(24) }) }).parse(JSON.parse(outcome.stdout)),
    ).toBeTruthy();
  });
});
