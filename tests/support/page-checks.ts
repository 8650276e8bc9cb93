import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchChromium } from './browser.js';
import { nonEmpty } from './non-empty.js';

export const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

// What runs in the page is text: it sees the document there, not this module.
export const VIOLATIONS = `axe.run(document, { resultTypes: ['violations'] }).then((result) => result.violations.map((each) =>
  each.id + ': ' + each.nodes.slice(0, 3).map((node) => node.html.slice(0, 160)).join(' … ')))`;

/** Sizes of all that a selector finds, as a program for the page. */
export function sizesOf(selector: string): string {
  return `[...document.querySelectorAll('${selector}')].map((each) => each.getBoundingClientRect()).map((box) => [box.width, box.height])`;
}

/** Pages in a folder of their own, each opened without a network. */
export interface OpenPages {
  readonly onPage: <T>(
    page: string,
    options: BrowserContextOptions,
    use: (tab: Page, address: string) => Promise<T>,
  ) => Promise<T>;
}

/** Writes pages by name before the tests of a file, opens them in Chromium, and clears them away afterwards. */
export function openPages(write: () => Promise<Readonly<Record<string, string>>>): OpenPages {
  const folder = mkdtempSync(join(tmpdir(), 'pages-'));
  let browser: Browser;
  beforeAll(async () => {
    for (const [name, text] of Object.entries(await write())) writeFileSync(join(folder, `${name}.html`), text);
    browser = await launchChromium();
  });
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true });
  });
  return {
    onPage: async (page, options, use) => {
      const context = await browser.newContext({ offline: true, ...options });
      try {
        return await use(await context.newPage(), pathToFileURL(join(folder, `${page}.html`)).href);
      } finally {
        await context.close();
      }
    },
  };
}

/** What every page of a report is held to. `pictures`: how many charts it shows. */
export function checkPage({ onPage }: OpenPages, page: string, pictures: number): void {
  describe(`the page ${page} in Chromium`, () => {
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
        // The one beside a verdict is the narrow one.
        const shown = 'figure svg[role=img]:not([data-narrow]):not(.verdict svg), .verdict figure svg[data-narrow]';
        const sizes = await tab.evaluate<[number, number][]>(sizesOf(shown));
        expect(sizes).toHaveLength(pictures);
        for (const [width, height] of nonEmpty(sizes)) {
          expect(width).toBeGreaterThan(340);
          expect(height).toBeGreaterThan(60);
        }
        expect(await tab.locator('script').count()).toBe(0);
      });
    });

    it('shows every chart on a telephone as one that was drawn for it, with nothing beyond its frame', async () => {
      await onPage(page, { viewport: { width: 390, height: 844 } }, async (tab, address) => {
        await tab.goto(address);
        const widths = await tab.evaluate<[number, number][]>(WIDTHS_ON_A_PHONE);
        expect(widths).toHaveLength(pictures);
        for (const [width, frame] of nonEmpty(widths)) {
          expect(width).toBeGreaterThan(0.9 * frame);
          expect(width).toBeLessThanOrEqual(frame);
        }
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
}

/** Of each picture that shows, its width as drawn and that of its frame, in CSS pixels. */
const WIDTHS_ON_A_PHONE = `[...document.querySelectorAll('figure svg')].filter((svg) => svg.checkVisibility())
  .map((svg) => [svg.viewBox.baseVal.width, svg.parentElement.clientWidth])`;

/** axe-core finds nothing against the page, with all that it folds away unfolded. */
export function checkAccess({ onPage }: OpenPages, page: string, colorScheme: 'light' | 'dark'): void {
  it(`the page ${page} has no violation that axe-core knows, in ${colorScheme}`, async () => {
    // axe is a script, which the page's own policy forbids: it is let in here only.
    const options = { colorScheme, bypassCSP: true, viewport: { width: 1280, height: 900 } };
    await onPage(page, options, async (tab, address) => {
      await tab.goto(address);
      await tab.evaluate("document.querySelectorAll('details').forEach((each) => each.setAttribute('open', ''))");
      await tab.evaluate(axe);
      expect(await tab.evaluate(VIOLATIONS)).toEqual([]);
    });
  });
}
