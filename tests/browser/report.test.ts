import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CHARTS } from '../../src/report/charts/index.js';
import { reportFiles } from '../../src/report/index.js';
import { tracePage } from '../../src/report/trace.js';
import { launchChromium } from '../support/browser.js';
import { sampleComparison, singleSample } from '../support/sample-summary.js';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const command = 'swap-or-hop compare oxide-fields.yaml --seed 1';
const folder = mkdtempSync(join(tmpdir(), 'report-'));
const PAGES = ['usual', 'single', 'eight', 'trace'] as const;
let browser: Browser;

beforeAll(async () => {
  const samples = {
    usual: sampleComparison({ strategies: 3, images: 48, bookings: true, decided: false, replications: 100 }),
    single: singleSample(),
    eight: sampleComparison({ strategies: 8, images: 800, bookings: true, replications: 100 }),
  };
  for (const [name, sample] of Object.entries(samples)) {
    const files = await reportFiles(sample, { command });
    writeFileSync(join(folder, `${name}.html`), files.get('report.html') ?? '');
  }
  const { summary } = samples.usual;
  const events = [{ time: 0, clock: 'Mo 09:00:00', instrument: 0, what: 'start', detail: 'set up' }];
  const traced = { title: 'Oxide', strategy: 'Swap', replication: 3, seed: '1', tool: summary.tool, command };
  writeFileSync(join(folder, 'trace.html'), await tracePage(summary.shown[0].timelines[0], events, traced));
  browser = await launchChromium();
});

afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true });
});

/** A fresh page and the address to go to, without a network. */
async function onPage<T>(
  page: string,
  options: BrowserContextOptions,
  use: (tab: Page, address: string) => Promise<T>,
): Promise<T> {
  const context = await browser.newContext({ offline: true, ...options });
  try {
    return await use(await context.newPage(), pathToFileURL(join(folder, `${page}.html`)).href);
  } finally {
    await context.close();
  }
}

// What runs in the page is text: it sees the document there, not this module.
const VIOLATIONS = `axe.run(document, { resultTypes: ['violations'] }).then((result) => result.violations.map((each) =>
  each.id + ': ' + each.nodes.slice(0, 3).map((node) => node.html.slice(0, 160)).join(' … ')))`;

function sizesOf(selector: string): string {
  return `[...document.querySelectorAll('${selector}')].map((each) => each.getBoundingClientRect()).map((box) => [box.width, box.height])`;
}

/** Number of pictures in a page. */
const PICTURES: Readonly<Record<(typeof PAGES)[number], number>> = {
  usual: CHARTS.length,
  single: CHARTS.length - 1,
  eight: CHARTS.length,
  trace: 1,
};

describe.each(PAGES)('the page %s in Chromium', (page) => {
  it('logs nothing, asks for nothing but itself, and shows every chart', async () => {
    await onPage(page, { viewport: { width: 1440, height: 900 } }, async (tab, address) => {
      const said: string[] = [];
      const asked: string[] = [];
      tab.on('console', (message) => said.push(message.text()));
      tab.on('pageerror', (error) => said.push(error.message));
      tab.on('request', (request) => asked.push(request.url()));
      await tab.goto(address, { waitUntil: 'load' });
      expect(said).toEqual([]);
      expect(asked).toEqual([address]);
      const sizes = await tab.evaluate<[number, number][]>(sizesOf('figure svg[role=img]'));
      expect(sizes).toHaveLength(PICTURES[page]);
      for (const [width, height] of sizes) {
        expect(width).toBeGreaterThan(600);
        expect(height).toBeGreaterThan(60);
      }
      expect(await tab.locator('script').count()).toBe(0);
    });
  });

  it('does not scroll sideways, from a telephone to a wall', async () => {
    await onPage(page, {}, async (tab, address) => {
      await tab.goto(address);
      for (const width of [360, 1440, 3840]) {
        await tab.setViewportSize({ width, height: 800 });
        expect(await tab.evaluate<number>('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
      }
    });
  });
});

it.each([
  ['usual', 'light'],
  ['usual', 'dark'],
  ['single', 'dark'],
  ['trace', 'light'],
] as const)('the page %s has no violation that axe-core knows, in %s', async (page, colorScheme) => {
  // axe is a script, which the page's own policy forbids: it is let in here only.
  const options = { colorScheme, bypassCSP: true, viewport: { width: 1280, height: 900 } };
  await onPage(page, options, async (tab, address) => {
    await tab.goto(address);
    await tab.evaluate("document.querySelectorAll('details').forEach((each) => each.setAttribute('open', ''))");
    await tab.evaluate(axe);
    expect(await tab.evaluate(VIOLATIONS)).toEqual([]);
  });
});

it('the page exchanges its colours for the dark', async () => {
  const colours = async (colorScheme: 'light' | 'dark'): Promise<[string, string]> =>
    onPage('usual', { colorScheme }, async (tab, address) => {
      await tab.goto(address);
      return [
        await tab.evaluate<string>('getComputedStyle(document.body).backgroundColor'),
        await tab.evaluate<string>("getComputedStyle(document.querySelector('figure svg text')).fill"),
      ];
    });
  const light = await colours('light');
  const dark = await colours('dark');
  expect(light[0]).toBe('rgb(255, 255, 255)');
  expect(dark[0]).toBe('rgb(20, 23, 28)');
  expect(dark[1]).not.toBe(light[1]);
});

it('prints with no figure taller than a sheet of A4', async () => {
  // 16 mm and 15 mm of margins leave 180 mm by 265 mm, which is 680 by 1001 CSS pixels.
  await onPage('eight', { viewport: { width: 680, height: 1001 } }, async (tab, address) => {
    await tab.goto(address);
    await tab.emulateMedia({ media: 'print' });
    const sizes = await tab.evaluate<[number, number][]>(sizesOf('figure'));
    expect(sizes).toHaveLength(CHARTS.length);
    for (const [, height] of sizes) expect(height).toBeLessThanOrEqual(1001);
  });
});
