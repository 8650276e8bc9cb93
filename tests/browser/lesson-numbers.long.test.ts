import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { lessonOf, says } from '../support/lesson.js';
import { openPages } from '../support/page-checks.js';

const REPLICATIONS = 12;
/** Every shipped experiment and the lesson's own, each with another seed. */
const CASES = [
  ['lesson', 'lesson 1'],
  ['ambient-islands', 'another'],
  ['multi-tip-device', 'ärger & 50 %'],
  ['soft-membranes', '2'],
  ['vacuum-terraces', '#3'],
] as const;

const path = (name: string) => join(root, 'scenarios', `${name}.yaml`);
const pages = openPages(async () => {
  const written: Record<string, string> = {};
  for (const [name] of CASES) written[name] = await lessonOf(path(name));
  return written;
});

const summary = z.object({
  strategies: z.array(
    z.object({
      name: z.string(),
      measures: z.object({
        totalTime: z.object({ value: z.number() }),
        yield: z.object({ value: z.number() }),
        tips: z.object({ value: z.number() }),
      }),
    }),
  ),
});

/** Name, total time, yield and tips of every strategy, as the command line has them. */
async function byCommand(file: string, ...more: readonly string[]): Promise<readonly (readonly string[])[]> {
  return inEmptyFolder(async (cwd) => {
    const args = [
      'compare',
      file,
      ...more,
      '--replications',
      String(REPLICATIONS),
      '--draws',
      '40',
      '--json',
      '--quiet',
    ];
    const { code, stdout } = await swapOrHop(args, { cwd });
    expect(code).toBe(0);
    return summary
      .parse(JSON.parse(stdout))
      .strategies.map(({ name, measures }) => [
        name,
        ...[measures.totalTime, measures.yield, measures.tips].map(({ value }) => String(value)),
      ]);
  });
}

const CELLS =
  "[...document.querySelectorAll('#part-numbers tbody tr')].map((row) => [...row.cells].map((cell) => cell.textContent))";

describe.each(CASES)('the lesson of %s with seed %s', (name, seed) => {
  it('gives the numbers of the command line to the last digit', async () => {
    const expected = await byCommand(path(name), '--seed', seed);
    await pages.onPage(name, {}, async (tab, address) => {
      await tab.goto(`${address}#${new URLSearchParams({ seed }).toString()}`);
      await tab.getByLabel('Replications N').fill(String(REPLICATIONS));
      await tab.getByRole('button', { name: 'Run them here' }).click();
      await says(tab, '#part-numbers [role=status]', /^Done/);
      expect(await tab.evaluate<string[][]>(CELLS)).toEqual(expected);
    });
  });
});

describe('the scenario that a part saves', () => {
  it('keeps its comments, and is the changed experiment in the command line and in a lesson of its own', async () => {
    await inEmptyFolder(async (cwd) => {
      const file = join(cwd, 'saved.yaml');
      await pages.onPage('lesson', { acceptDownloads: true }, async (tab, address) => {
        await tab.goto(`${address}#ways-breakage=2&ways-preparation=0.4&ways-fouling=1.6`);
        const coming = tab.waitForEvent('download');
        await tab.locator('#part-ways').getByRole('button', { name: 'Save this scenario' }).click();
        const download = await coming;
        expect(download.suggestedFilename()).toBe('lesson-swap-or-hop.yaml');
        await download.saveAs(file);
      });
      const text = readFileSync(file, 'utf8');
      expect(text).toContain('# hurried scans knock it about more');
      expect(text).toContain('tips.sharp.hazards.0.life.scale: 9 images');
      const expected = await byCommand(file);
      const again = openSaved(await lessonOf(file));
      expect(again).toContain('tips.sharp.hazards.0.life.scale: 9 images');
      expect(expected.map(([name]) => name)).toEqual(['swap by hand', 'hop']);
      expect(expected).not.toEqual(await byCommand(path('lesson')));
    });
  });
});

/** The scenario inside a page. */
function openSaved(page: string): string {
  const [, json = 'null'] = /id="embedded">(.*?)<\/script>/s.exec(page) ?? [];
  return z.object({ scenario: z.string() }).parse(JSON.parse(json)).scenario;
}
