import { chmodSync, copyFileSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { undocumentedFields } from '../support/documented.js';
import { inFolderWithLog } from '../support/fitted-log.js';
import { nonEmpty } from '../support/non-empty.js';
import { loadedOf } from '../support/run.js';

const log = join(root, 'scenarios/logs/tip-log.csv');
const radii = join(root, 'scenarios/logs/tip-radii.csv');
const starter = join(root, 'scenarios/starters/multi-tip.yaml');
const small = join(root, 'tests/support/small.yaml');
const read = (...path: string[]) => readFileSync(join(...path), 'utf8');
const summarySchema = z.looseObject({
  format: z.literal('swap-or-hop fit'),
  formatVersion: z.literal(2),
  log: z.looseObject({ rows: z.number(), used: z.number() }),
});

const INTO = ['fit', 'log.csv', '--into', 'my.yaml', '--bootstrap', '0'];

describe('fit', () => {
  it('fits the shipped log and radii into a starter: comments kept, sources filled in, every field documented', async () => {
    await inEmptyFolder(async (cwd) => {
      copyFileSync(starter, join(cwd, 'my.yaml'));
      const args = ['fit', log, '--skip', '--into', 'my.yaml', '--radii', radii, '--bootstrap', '1', '--json'];
      const outcome = await swapOrHop(args, { cwd });
      expect(outcome.code).toBe(0);
      expect(outcome.stderr).toContain('wrote the hazards into my.yaml');
      expect(outcome.stdout).toBe(read(cwd, 'reports/tip-log-fit/summary.json'));
      expect(undocumentedFields(outcome.stdout)).toEqual([]);
      const summary = summarySchema.parse(JSON.parse(outcome.stdout));
      const complaints = outcome.stderr.match(/tip-log\.csv:\d+:\d+ {2}not used {2}.+/g) ?? [];
      expect(complaints).toHaveLength(summary.log.rows - summary.log.used);
      expect(complaints).toHaveLength(3);
      const text = read(cwd, 'my.yaml');
      for (const comment of nonEmpty(read(starter).match(/#.*$/gm) ?? [])) expect(text).toContain(comment);
      const loaded = loadedOf(text);
      const { tips, sources } = loaded.base;
      expect(tips['sharp'].hazards.map(({ cause }) => cause)).toEqual(['breakage', 'chipping', 'fouling']);
      expect(sources['tips.coated.hazards.coating.life']).toMatch(
        /^log tip-log\.csv \(\d{4}-\d{2}-\d{2}\), \d+ tips, \d+ events, distribution by AIC/,
      );
      expect(readdirSync(join(cwd, 'reports/tip-log-fit')).sort()).toEqual([
        'charts',
        'hazards.yaml',
        'methods.md',
        'report.html',
        'summary.json',
      ]);
    });
  });

  it.each([
    ['a kind that the scenario has not', ['--tip', 'sharp=sharpp'], 'did you mean `sharp`'],
    ['a column that there is not', ['--column', 'images=imagse'], 'did you mean `images`'],
    ['a kind that the log has not', ['--tip', 'sharpp=sharp'], 'did you mean `sharp`'],
  ])('leaves the scenario as it was for %s, and says what to write', async (_, args, message) => {
    await inFolderWithLog(async (cwd) => {
      const outcome = await swapOrHop([...INTO, ...args], { cwd });
      expect(outcome).toMatchObject({ code: 2, stdout: '' });
      expect(outcome.stderr).toContain(message);
      expect(read(cwd, 'my.yaml')).toBe(read(small));
      expect(existsSync(join(cwd, 'reports'))).toBe(false);
    });
  });

  it('leaves a scenario as it was that the hazards would break', async () => {
    await inFolderWithLog(async (cwd) => {
      const hop = '{ name: hop, workflow: hop';
      const text = read(small).replace(hop, `${hop}, set: { tips.sharp.hazards.breakage.life.perUnit: 0.02 }`);
      writeFileSync(join(cwd, 'my.yaml'), text);
      const outcome = await swapOrHop(INTO, { cwd });
      expect(outcome.code).toBe(1);
      expect(outcome.stderr).toMatch(/my\.yaml \(with the hazards\):\d+:\d+ {2}error/);
      expect(read(cwd, 'my.yaml')).toBe(text);
      expect(existsSync(join(cwd, 'reports'))).toBe(false);
    });
  });

  it('leaves the scenario as it was where the report cannot be written', async () => {
    await inFolderWithLog(async (cwd) => {
      writeFileSync(join(cwd, 'taken'), 'notes');
      const outcome = await swapOrHop([...INTO, '--out', 'taken'], { cwd });
      expect(outcome.code).toBe(2);
      expect(read(cwd, 'my.yaml')).toBe(read(small));
      expect(readdirSync(cwd).sort()).toEqual(['log.csv', 'my.yaml', 'taken']);
    });
  });

  it('does not replace a scenario that is set read-only, and says so before it fits', async () => {
    await inFolderWithLog(async (cwd) => {
      chmodSync(join(cwd, 'my.yaml'), 0o444);
      const outcome = await swapOrHop(INTO, { cwd });
      expect(outcome).toMatchObject({ code: 2, stdout: '' });
      expect(outcome.stderr).toContain('my.yaml is read-only');
      expect(read(cwd, 'my.yaml')).toBe(read(small));
      expect(existsSync(join(cwd, 'reports'))).toBe(false);
    });
  });

  it.each([
    ['nothing', '', 'the log is empty'],
    ['no row that can be used', 'tip,kind,images,ended\n1,a,x,broken\n', 'no row of'],
    ['another encoding', Buffer.from([0x74, 0xe4, 0x0a]), 'UTF-8'],
    ['a quote that never closes', 'tip,kind,images,ended\n1,a,3,"broken\n', 'log.csv:2:7  error  this quote'],
  ])('refuses a log with %s', async (_, content, message) => {
    await inEmptyFolder(async (cwd) => {
      writeFileSync(join(cwd, 'log.csv'), content);
      const outcome = await swapOrHop(['fit', 'log.csv'], { cwd });
      expect(outcome).toMatchObject({ code: 2, stdout: '' });
      expect(outcome.stderr).toContain(message);
      expect(outcome.stderr).not.toContain('fault of swap-or-hop');
    });
  });
});
