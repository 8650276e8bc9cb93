import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { launchChromium } from '../support/browser.js';
import { inEmptyFolder, root, swapOrHop } from '../support/command.js';
import { nonEmpty } from '../support/non-empty.js';
import { axe, VIOLATIONS } from '../support/page-checks.js';
import { STUDIES } from '../support/studies.js';

const small = join(root, 'tests/support/small.yaml');
const logs = join(root, 'scenarios/logs');

/** Every command that writes pages, kept short. */
const COMMANDS: readonly (readonly string[])[] = [
  ['compare', small, '--replications', '40', '--draws', '40'],
  ...STUDIES.map(([command, options]) => [command, small, ...options]),
  ['fit', join(logs, 'tip-log.csv'), '--skip'],
  ['fit', '--drift', join(logs, 'drift-readings.csv'), '--settling', '8 min'],
];

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(async () => {
  await browser.close();
});

/** Opens a text as a page. axe is a script, which a page's own policy forbids: it is let in here only. */
async function onPage(text: string, look: (tab: Page) => Promise<void>): Promise<void> {
  const context = await browser.newContext({ offline: true, bypassCSP: true, viewport: { width: 390, height: 844 } });
  try {
    const tab = await context.newPage();
    await tab.setContent(text);
    await look(tab);
  } finally {
    await context.close();
  }
}

describe.each(COMMANDS)('%s %s %s', (...args) => {
  it('writes pages that fit a telephone, without marks of code in sentences, and on which axe-core finds nothing in light or dark', async () => {
    await inEmptyFolder(async (cwd) => {
      const outcome = await swapOrHop([...args, '--quiet', '--out', 'out'], { cwd });
      expect(outcome.code, outcome.stderr).toBe(0);
      const pages = readdirSync(join(cwd, 'out')).filter((file) => file.endsWith('.html') && file !== 'explore.html');
      for (const file of nonEmpty(pages)) {
        await onPage(readFileSync(join(cwd, 'out', file), 'utf8'), async (tab) => {
          expect(await tab.evaluate<number>('document.documentElement.scrollWidth'), file).toBeLessThanOrEqual(390);
          expect(await tab.evaluate<string>('document.body.innerText'), file).not.toContain('`');
          await tab.evaluate("document.querySelectorAll('details').forEach((each) => each.setAttribute('open', ''))");
          await tab.setViewportSize({ width: 1280, height: 900 });
          await tab.evaluate(axe);
          for (const colorScheme of ['light', 'dark'] as const) {
            await tab.emulateMedia({ colorScheme });
            expect(await tab.evaluate(VIOLATIONS), `${file} in ${colorScheme}`).toEqual([]);
          }
        });
      }
    });
  });
});

const shipped = readdirSync(join(root, 'scenarios')).filter((file) => file.endsWith('.yaml'));

it.each(shipped)('the report of %s prints on four to six pages, its brief on one', async (scenario) => {
  await inEmptyFolder(async (cwd) => {
    const args = ['compare', join(root, 'scenarios', scenario), '--replications', '100', '--draws', '40'];
    const outcome = await swapOrHop([...args, '--quiet', '--out', 'out'], { cwd });
    expect(outcome.code, outcome.stderr).toBe(0);
    const printed = async (file: string): Promise<number> => {
      let count = 0;
      await onPage(readFileSync(join(cwd, 'out', file), 'utf8'), async (tab) => {
        const pdf = await tab.pdf({ preferCSSPageSize: true });
        count = pdf.toString('latin1').match(/\/Type\s*\/Page[^s]/g)?.length ?? 0;
      });
      return count;
    };
    const pages = await printed('report.html');
    expect(pages).toBeGreaterThanOrEqual(4);
    expect(pages).toBeLessThanOrEqual(6);
    expect(await printed('brief.html')).toBe(1);
  });
});
