import { expect, it } from 'vitest';
import { CHARTS } from '../../src/studies/compare/charts/index.js';
import { checkAccess, checkPage, openPages } from '../support/page-checks.js';
import { pagesOf, tracedPage } from '../support/sample-pages.js';
import { sampleComparison } from '../support/sample-summary.js';
import { nonEmpty } from '../support/non-empty.js';

const usual = sampleComparison({ strategies: 3, images: 48, bookings: true, decided: false, replications: 100 });
const pages = openPages(async () => ({ ...(await pagesOf({ usual })), trace: await tracedPage(usual) }));

checkPage(pages, 'usual', CHARTS.length);
checkPage(pages, 'trace', 1);
checkAccess(pages, 'usual', 'light');
checkAccess(pages, 'trace', 'dark');
checkAccess(pages, 'usual-brief', 'light');

it('the page exchanges its colours for the dark', async () => {
  const colours = async (colorScheme: 'light' | 'dark'): Promise<[string, string]> =>
    pages.onPage('usual', { colorScheme }, async (tab, address) => {
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

it('holds title, verdict, table and the picture of completion on the first screen', async () => {
  await pages.onPage('usual', { viewport: { width: 1280, height: 800 } }, async (tab, address) => {
    await tab.goto(address);
    for (const part of [
      'h1',
      '#verdict',
      '.verdict .headline tbody tr:last-child',
      '.verdict figure svg[data-narrow]',
    ]) {
      const box = await tab.locator(part).boundingBox();
      expect(box, part).not.toBeNull();
      expect((box?.y ?? 800) + (box?.height ?? 800), part).toBeLessThanOrEqual(800);
    }
  });
});

it('prints the brief on one page', async () => {
  await pages.onPage('usual-brief', {}, async (tab, address) => {
    await tab.goto(address);
    const pdf = await tab.pdf({ preferCSSPageSize: true });
    expect(pdf.toString('latin1').match(/\/Type\s*\/Page[^s]/g)).toHaveLength(1);
  });
});

it('prints the report on four to six pages, with no heading alone at a page’s foot', async () => {
  await pages.onPage('usual', {}, async (tab, address) => {
    await tab.goto(address);
    const pdf = await tab.pdf({ preferCSSPageSize: true });
    const count = pdf.toString('latin1').match(/\/Type\s*\/Page[^s]/g)?.length ?? 0;
    expect(count).toBeGreaterThanOrEqual(4);
    expect(count).toBeLessThanOrEqual(6);
    await tab.emulateMedia({ media: 'print' });
    const rules = await tab.evaluate<string[]>(
      "[...document.querySelectorAll('h2, h3')].map((each) => getComputedStyle(each).breakAfter)",
    );
    for (const rule of nonEmpty(rules)) expect(rule).toBe('avoid');
  });
});
