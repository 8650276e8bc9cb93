import { copyFileSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { loadScenario } from '../../src/scenario/load.js';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';

const log = join(root, 'scenarios/logs/tip-log.csv');
const radii = join(root, 'scenarios/logs/tip-radii.csv');
const starter = join(root, 'scenarios/starters/multi-tip.yaml');
const QUICK = ['--bootstrap', '0'];
const read = (...path: string[]) => readFileSync(join(...path), 'utf8');
const summarySchema = z.looseObject({
  format: z.literal('swap-or-hop fit'),
  formatVersion: z.literal(1),
  log: z.looseObject({ rows: z.number(), used: z.number() }),
});

describe('fit', () => {
  it('goes from a log to a scenario that compares, comments kept and sources filled in', async () => {
    await inEmptyFolder(async (cwd) => {
      copyFileSync(starter, join(cwd, 'my.yaml'));
      const outcome = await swapOrHop(['fit', log, '--into', 'my.yaml', '--radii', radii, ...QUICK], { cwd });
      expect(outcome.code).toBe(0);
      expect(outcome.stderr).toContain('wrote the hazards into my.yaml');
      const text = read(cwd, 'my.yaml');
      for (const comment of read(starter).match(/#.*$/gm) ?? []) expect(text).toContain(comment);
      const loaded = loadScenario(text);
      if (!loaded.ok) throw new Error(JSON.stringify(loaded.faults));
      const { tips, sources } = loaded.scenario.base;
      expect(tips['sharp'].hazards.map(({ cause }) => cause)).toEqual(['breakage', 'chipping', 'fouling']);
      expect(sources['tips.coated.hazards.coating.life']).toMatch(
        /^log tip-log\.csv \(\d{4}-\d{2}-\d{2}\), \d+ tips, \d+ events, law by AIC/,
      );
      const compared = await swapOrHop(['compare', 'my.yaml', '--replications', '2', '--draws', '40'], { cwd });
      expect(compared.code).toBe(0);
    });
  });

  it('gives the same bytes when it is run twice, in the report and in the scenario', async () => {
    await inEmptyFolder(async (cwd) => {
      copyFileSync(starter, join(cwd, 'my.yaml'));
      const args = ['fit', log, '--into', 'my.yaml', '--bootstrap', '3'];
      await swapOrHop([...args, '--out', 'a'], { cwd });
      const once = read(cwd, 'my.yaml');
      await swapOrHop([...args, '--out', 'b'], { cwd });
      expect(read(cwd, 'my.yaml')).toBe(once);
      expect(read(cwd, 'b/summary.json')).toBe(read(cwd, 'a/summary.json'));
    });
  });

  it('writes a report folder, says of every unusable row where and why, and prints its summary with --json', async () => {
    await inEmptyFolder(async (cwd) => {
      const outcome = await swapOrHop(['fit', log, ...QUICK, '--json'], { cwd });
      const summary = summarySchema.parse(JSON.parse(outcome.stdout));
      expect(outcome.stdout).toBe(read(cwd, 'reports/tip-log-fit/summary.json'));
      expect(readdirSync(join(cwd, 'reports/tip-log-fit')).sort()).toEqual([
        'charts',
        'hazards.yaml',
        'methods.md',
        'report.html',
        'summary.json',
      ]);
      const complaints = outcome.stderr.match(/tip-log\.csv:\d+:\d+ {2}not used {2}.+/g) ?? [];
      expect(complaints).toHaveLength(summary.log.rows - summary.log.used);
      expect(complaints).toHaveLength(3);
    });
  });

  it('documents every field of the summary that it writes', async () => {
    await inEmptyFolder(async (cwd) => {
      const outcome = await swapOrHop(['fit', log, '--radii', radii, '--bootstrap', '2', '--json'], { cwd });
      const documentation = read(root, 'reports/README.md');
      const undocumented = fieldsOf(JSON.parse(outcome.stdout)).filter(
        (field) => !documentation.includes(`\`${field}\``),
      );
      expect(undocumented).toEqual([]);
    });
  });

  it.each([
    ['a kind that the scenario has not', ['--tip', 'sharp=sharpp'], 'did you mean `sharp`'],
    ['a cause that there is not', ['--law', 'brakage=gamma'], 'did you mean `breakage`'],
    ['a law that there is not', ['--law', 'breakage=gama'], 'did you mean `gamma`'],
    ['a unit that there is not', ['--per', 'breakage=imagse'], 'did you mean `image`'],
    ['a column that there is not', ['--column', 'images=Imagse'], 'did you mean `Images`'],
    ['a kind that the log has not', ['--tip', 'sharpp=sharp'], 'did you mean `sharp`'],
    ['a date in another form', ['--date', '17.5.2031'], 'year-month-day'],
  ])('leaves the scenario as it was for %s, and says what to write', async (_, args, message) => {
    await inEmptyFolder(async (cwd) => {
      copyFileSync(starter, join(cwd, 'my.yaml'));
      const outcome = await swapOrHop(['fit', log, '--into', 'my.yaml', ...QUICK, ...args], { cwd });
      expect(outcome).toMatchObject({ code: 2, stdout: '' });
      expect(outcome.stderr).toContain(message);
      expect(read(cwd, 'my.yaml')).toBe(read(starter));
      expect(existsSync(join(cwd, 'reports'))).toBe(false);
    });
  });

  it('leaves a scenario as it was that the hazards would break', async () => {
    await inEmptyFolder(async (cwd) => {
      const text = read(starter).replace('plan.order: tip-first', 'plan.order: tip-first\n      tips.sharp.hazards.breakage.life.perUnit: 0.02');
      writeFileSync(join(cwd, 'my.yaml'), text);
      const outcome = await swapOrHop(['fit', log, '--into', 'my.yaml', ...QUICK], { cwd });
      expect(outcome.code).toBe(1);
      expect(outcome.stderr).toMatch(/my\.yaml \(with the hazards\):\d+:\d+ {2}error/);
      expect(read(cwd, 'my.yaml')).toBe(text);
      expect(existsSync(join(cwd, 'reports'))).toBe(false);
    });
  });

  it('leaves the scenario as it was where the report cannot be written', async () => {
    await inEmptyFolder(async (cwd) => {
      copyFileSync(starter, join(cwd, 'my.yaml'));
      writeFileSync(join(cwd, 'taken'), 'notes');
      const outcome = await swapOrHop(['fit', log, '--into', 'my.yaml', ...QUICK, '--out', 'taken'], { cwd });
      expect(outcome.code).toBe(2);
      expect(read(cwd, 'my.yaml')).toBe(read(starter));
      expect(readdirSync(cwd).sort()).toEqual(['my.yaml', 'taken']);
    });
  });

  it.each([
    ['nothing', '', 'the log is empty'],
    ['no row that can be used', 'tip,kind,images,ended\n1,a,x,broken\n', 'no row of'],
    ['another encoding', Buffer.from([0x74, 0xe4, 0x0a]), 'UTF-8'],
    ['no column of ends', 'tip,kind,images\n1,a,3\n', '--column ended=HEAD'],
    ['a path without unit', 'tip,kind,path,ended\n1,a,3,broken\n', '--unit distance=UNIT'],
    ['a quote that never closes', 'tip,kind,images,ended\n1,a,3,"broken\n', 'log.csv:2:7  error  this quote'],
  ])('refuses a log with %s', async (_, content, message) => {
    await inEmptyFolder(async (cwd) => {
      writeFileSync(join(cwd, 'log.csv'), content);
      const outcome = await swapOrHop(['fit', 'log.csv', ...QUICK], { cwd });
      expect(outcome).toMatchObject({ code: 2, stdout: '' });
      expect(outcome.stderr).toContain(message);
      expect(outcome.stderr).not.toContain('fault of swap-or-hop');
    });
  });
});

/** Names of all fields; those of `ended` are data. */
function fieldsOf(value: unknown): string[] {
  if (Array.isArray(value)) return [...new Set(value.flatMap(fieldsOf))];
  if (typeof value !== 'object' || value === null) return [];
  const below = Object.entries(value).flatMap(([key, child]) => [key, ...(key === 'ended' ? [] : fieldsOf(child))]);
  return [...new Set(below)];
}
