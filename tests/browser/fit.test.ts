import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { FIT_CHARTS } from '../../src/studies/fit/charts/index.js';
import { fitReport } from '../../src/studies/fit/report.js';
import { numberText } from '../../src/wording/numbers.js';
import type { FitSummary } from '../../src/studies/fit/results.js';
import { launchChromium } from '../support/browser.js';
import { fittedLog } from '../support/fitted-log.js';
import { madeLog } from '../support/make-log.js';
import { textsOf } from '../support/report-texts.js';
import { nonEmpty } from '../support/non-empty.js';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const folder = mkdtempSync(join(tmpdir(), 'fit-report-'));
const address = pathToFileURL(join(folder, 'report.html')).href;
let browser: Browser;
let summary: FitSummary;

beforeAll(async () => {
  summary = fittedLog(madeLog(), { file: 'tip-log.csv', samples: 2, command: 'swap-or-hop fit tip-log.csv' });
  const files = await textsOf(fitReport, summary);
  writeFileSync(join(folder, 'report.html'), files.get('report.html') ?? '');
  browser = await launchChromium();
});

afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true });
});

// What runs in the page is text: it sees the document there, not this module.
const VIOLATIONS = `axe.run(document, { resultTypes: ['violations'] }).then((result) => result.violations.map((each) =>
  each.id + ': ' + each.nodes.slice(0, 3).map((node) => node.html.slice(0, 160)).join(' … ')))`;

it.each(['light', 'dark'] as const)(
  'the page on a log has no violation that axe-core knows, in %s',
  async (colorScheme) => {
    // axe is a script, which the page's own policy forbids: it is let in here only.
    const context = await browser.newContext({ offline: true, colorScheme, bypassCSP: true });
    const tab = await context.newPage();
    await tab.goto(address);
    await tab.addScriptTag({ content: axe });
    expect(await tab.evaluate<string[]>(VIOLATIONS)).toEqual([]);
    await context.close();
  },
);

it('the page on a log shows every chart, logs nothing, and does not scroll sideways', async () => {
  const tab = await browser.newPage();
  const said: string[] = [];
  tab.on('console', (message) => said.push(message.text()));
  await tab.goto(address);
  expect(said).toEqual([]);
  expect(await tab.locator('figure svg[role=img]:not([data-narrow])').count()).toBe(FIT_CHARTS.length);
  for (const width of [360, 1440]) {
    await tab.setViewportSize({ width, height: 800 });
    expect(await tab.evaluate<number>('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
  }
  await tab.close();
});

it('the page on a log shows the numbers of its summary', async () => {
  const tab = await browser.newPage();
  await tab.goto(address);
  const text = await tab.locator('section[aria-labelledby=hazards] table').innerText();
  const medians = summary.kinds.flatMap(({ causes }) => causes.flatMap(({ median }) => median ?? []));
  expect(medians.length).toBeGreaterThan(4);
  for (const { value } of nonEmpty(medians)) expect(text).toContain(numberText(value));
  await tab.close();
});
