import { existsSync, mkdirSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { handOver } from '../../src/cli/take-place.js';
import { inEmptyFolder, type Outcome, root, swapOrHop } from '../support/command.js';
import { nonEmpty } from '../support/non-empty.js';

const scenario = join(root, 'tests/support/small.yaml');
const assumed = join(root, 'scenarios/starters/ambient.yaml');
const state = join(root, 'tests/support/small-state.csv');

/** Every command that spreads its campaigns over threads, with options that keep it short. */
const STUDIES: readonly (readonly string[])[] = [
  ['compare', scenario, '--replications', '700'],
  ['budget', scenario, '--replications', '300', '--granted', '2 h'],
  ['breakeven', scenario, '--vary', 'plan.regions=2..8 by 2'],
  ['sweep', scenario, '--vary', 'pace.scan=1, 1.5'],
  ['sensitivity', scenario, '--all'],
  ['midway', scenario, '--done', state, '--replications', '300'],
  ['tune', scenario, '--vary', 'rules.after=2 images, none', '--zone', '10 %'],
];

/** Every file below a folder by its path. */
function filesIn(folder: string): ReadonlyMap<string, string> {
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort();
  return new Map(
    names
      .filter((name) => statSync(join(folder, name)).isFile())
      .map((name) => [name, readFileSync(join(folder, name), 'utf8')]),
  );
}

describe.each(STUDIES)('%s', (...words) => {
  it('gives the same bytes on one thread, two and three', async () => {
    await inEmptyFolder(async (cwd) => {
      const reports: ReadonlyMap<string, string>[] = [];
      for (const threads of ['1', '2', '3']) {
        const outcome = await swapOrHop([...words, '--threads', threads, '--out', threads], { cwd });
        expect(outcome.code).toBe(0);
        reports.push(filesIn(join(cwd, threads)));
      }
      expect(reports[0].has('summary.json')).toBe(true);
      expect(reports[1]).toEqual(reports[0]);
      expect(reports[2]).toEqual(reports[0]);
      // Every file is known as one of this program, so that none stays beside the next report.
      mkdirSync(join(cwd, 'next'));
      handOver(join(cwd, '3'), join(cwd, 'next'));
      expect(readdirSync(join(cwd, 'next'))).toEqual([]);
    });
  });
});

describe('--threads', () => {
  it.each(['0', 'two', '1.5', '257', '-1'])('%s is refused, and says what is wanted', async (threads) => {
    await inEmptyFolder(async (cwd) => {
      const outcome = await swapOrHop(['compare', scenario, `--threads=${threads}`], { cwd });
      expect(outcome).toMatchObject({ code: 2, stdout: '' });
      expect(outcome.stderr).toContain(`--threads wants a whole number from 1 to 256, not "${threads}"`);
      expect(readdirSync(cwd)).toEqual([]);
    });
  });
});

const summary = z.object({
  replications: z.number(),
  stopping: z.object({ rule: z.string(), text: z.string() }),
  assumptions: z.array(z.object({ reversals: z.unknown() })).nonempty(),
  parameterUncertainty: z.null(),
  verdict: z.object({ decided: z.boolean(), remarks: z.array(z.string()) }),
  warnings: z.array(z.string()),
});

const numbers = z.object({ replications: z.number(), strategies: z.unknown(), differences: z.unknown() });

const stoppedSummary = z.object({ replications: z.number(), stopping: z.string(), warnings: z.array(z.string()) });

interface Surroundings {
  readonly cwd: string;
  readonly signal: NodeJS.Signals;
}

/** Stops a command, later and later until it has begun and has something to say. */
async function stopped(words: readonly string[], surroundings: Surroundings): Promise<Outcome> {
  for (let after = 2500; ; after *= 2) {
    const outcome = await swapOrHop(words, { ...surroundings, interruptAfter: after });
    if (after > 60_000 || outcome.stderr.includes('what is complete of it')) return outcome;
  }
}

/** Milliseconds of processor time. */
const SECOND = 1000;

describe('a comparison that is interrupted', () => {
  it.each([
    ['SIGINT', 130],
    ['SIGTERM', 143],
  ] as const)('by %s ends within a second with what is complete, clearly marked', async (signal, code) => {
    await inEmptyFolder(async (cwd) => {
      const outcome = await stopped(['compare', scenario, '--replications', '1000000', '--out', 'report'], {
        cwd,
        signal,
      });
      expect(outcome.code).toBe(code);
      expect(outcome.lingered).toBeLessThan(SECOND);
      expect(outcome.stderr).toMatch(/^stopped {2}what is complete of it stands in report-stopped, without pictures$/m);
      expect(outcome.stdout).toMatch(/interrupted after \d+ replications/iu);
      const found = summary.parse(JSON.parse(readFileSync(join(cwd, 'report-stopped/summary.json'), 'utf8')));
      expect(found.stopping.rule).toBe('interrupted');
      expect(found.verdict).toMatchObject({ decided: false });
      expect(found.verdict.remarks[0].toLowerCase()).toBe(`${found.stopping.text}.`);
      expect(readFileSync(join(cwd, 'report-stopped/methods.md'), 'utf8')).toContain(found.verdict.remarks[0]);
      expect(nonEmpty(found.assumptions).every(({ reversals }) => reversals === null)).toBe(true);
      const page = readFileSync(join(cwd, 'report-stopped/report.html'), 'utf8');
      for (const text of ['Inconclusive: interrupted', found.stopping.text]) expect(page).toContain(text);
      // Pictures and rows take longer than a person waits who wants it to stop.
      expect(readdirSync(join(cwd, 'report-stopped')).sort()).toEqual([
        ...['brief.html', 'explore.html', 'images.csv', 'inputs.csv', 'methods.md', 'report.html', 'summary.json'],
      ]);
    });
  });

  it('has the numbers that as many replications give', async () => {
    await inEmptyFolder(async (cwd) => {
      const words = ['compare', scenario, '--out', 'half', '--replications', '1000000'];
      await stopped(words, { cwd, signal: 'SIGINT' });
      const numbersIn = (folder: string) =>
        numbers.parse(JSON.parse(readFileSync(join(cwd, folder, 'summary.json'), 'utf8')));
      const complete = String(numbersIn('half-stopped').replications);
      await swapOrHop(['compare', scenario, '--out', 'whole', '--replications', complete], { cwd });
      expect(numbersIn('half-stopped')).toEqual(numbersIn('whole'));
      expect(readFileSync(join(cwd, 'half-stopped/images.csv'), 'utf8')).toBe(
        readFileSync(join(cwd, 'whole/images.csv'), 'utf8'),
      );
    });
  });
});

describe('a budget or the rest of a campaign that is interrupted', () => {
  const state = join(root, 'tests/support/small-state.csv');
  it.each([
    ['budget', []],
    ['midway', ['--done', state]],
  ])(
    '%s ends within a second with what is complete, clearly marked, and is not made again',
    async (command, options) => {
      await inEmptyFolder(async (cwd) => {
        const words = [command, scenario, ...options, '--replications', '1000000', '--out', 'report/'];
        const outcome = await stopped(words, { cwd, signal: 'SIGINT' });
        expect(outcome.code).toBe(130);
        expect(outcome.lingered).toBeLessThan(SECOND);
        const text = readFileSync(join(cwd, 'report-stopped/summary.json'), 'utf8');
        const found = stoppedSummary.parse(JSON.parse(text));
        expect(found.stopping).toMatch(
          new RegExp(`^interrupted after ${found.replications} replications, before all were run`),
        );
        expect(found.warnings).toContain(found.stopping);
        for (const shown of [
          outcome.stdout.replace(/\s+/gu, ' '),
          readFileSync(join(cwd, 'report-stopped/report.html'), 'utf8'),
        ])
          expect(shown).toContain(found.stopping);
        expect(readFileSync(join(cwd, 'report-stopped/report.html'), 'utf8')).not.toContain('swap-or-hop verify');
        const verified = await swapOrHop(['verify', 'report-stopped/summary.json'], { cwd });
        expect(verified.code).toBe(2);
        expect(verified.stderr).toContain('interrupted and cannot be repeated');
      });
    },
  );
});

describe('tuning that is interrupted', () => {
  it('ends within a second with what is known of each setting, and gives nothing to paste', async () => {
    await inEmptyFolder(async (cwd) => {
      const ranges = ['--vary', 'rules.after=1..20 images', '--zone', '0.02 %', '--max-campaigns', '100000000'];
      const outcome = await stopped(['tune', scenario, ...ranges, '--out', 'report'], { cwd, signal: 'SIGINT' });
      expect(outcome.code).toBe(130);
      expect(outcome.lingered).toBeLessThan(SECOND);
      expect(outcome.stdout).toContain('Inconclusive: interrupted, before the best was selected and compared;');
      const files = ['report.html', 'summary.json', 'tune.csv'];
      expect(readdirSync(join(cwd, 'report-stopped')).sort()).toEqual(files);
    });
  });
});

describe('a command that is interrupted before there is anything to say', () => {
  it.each([
    ['compare', []],
    ['sensitivity', ['--all']],
    ['sweep', ['--vary', 'pace.scan=0.5..2 in 400']],
  ])('%s writes nothing and says so', async (command, options) => {
    await inEmptyFolder(async (cwd) => {
      // Its threads have hardly begun by then; a machine on which it is through already would show it here.
      const outcome = await swapOrHop([command, assumed, ...options, '--out', 'report'], { cwd, interruptAfter: 400 });
      expect(outcome.code === 130 || outcome.signal === 'SIGINT').toBe(true);
      expect(outcome.lingered ?? 0).toBeLessThan(SECOND);
      expect(outcome.stdout).toBe('');
      expect(existsSync(join(cwd, 'report'))).toBe(false);
    });
  });
});
