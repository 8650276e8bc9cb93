import { expect, it } from 'vitest';
import { FIT_CHARTS } from '../../src/studies/fit/charts/index.js';
import { numberText } from '../../src/wording/numbers.js';
import { fittedPage, madeFit } from '../support/fitted-log.js';
import { nonEmpty } from '../support/non-empty.js';
import { checkAccess, openPages } from '../support/page-checks.js';

const summary = madeFit();
const pages = openPages(async () => ({ 'on a log': await fittedPage(summary) }));

checkAccess(pages, 'on a log', 'light');

it('the page on a log shows every chart, logs nothing, and does not scroll sideways', async () => {
  await pages.onPage('on a log', {}, async (tab, address) => {
    const said: string[] = [];
    tab.on('console', (message) => said.push(message.text()));
    await tab.goto(address);
    expect(said).toEqual([]);
    expect(await tab.locator('figure svg[role=img]:not([data-narrow])').count()).toBe(FIT_CHARTS.length);
    for (const width of [360, 1440]) {
      await tab.setViewportSize({ width, height: 800 });
      expect(await tab.evaluate<number>('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
    }
  });
});

it('the page on a log shows the numbers of its summary', async () => {
  await pages.onPage('on a log', {}, async (tab, address) => {
    await tab.goto(address);
    const text = await tab.locator('section[aria-labelledby=hazards] table').innerText();
    const medians = summary.kinds.flatMap(({ causes }) => causes.flatMap(({ median }) => median ?? []));
    expect(medians.length).toBeGreaterThan(4);
    for (const { value } of nonEmpty(medians)) expect(text).toContain(numberText(value));
  });
});
