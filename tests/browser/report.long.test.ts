import { expect, it } from 'vitest';
import { CHARTS } from '../../src/studies/compare/charts/index.js';
import { nonEmpty } from '../support/non-empty.js';
import { checkAccess, checkPage, openPages, sizesOf } from '../support/page-checks.js';
import { pagesOf, tracedPage } from '../support/sample-pages.js';
import { sampleComparison, singleSample } from '../support/sample-summary.js';

const pages = openPages(async () => {
  const usual = sampleComparison({ strategies: 3, images: 48, bookings: true, decided: false, replications: 100 });
  const eight = sampleComparison({ strategies: 8, images: 800, bookings: true, replications: 100 });
  return { ...(await pagesOf({ usual, single: singleSample(), eight })), trace: await tracedPage(usual) };
});

checkPage(pages, 'single', CHARTS.length - 2);
checkPage(pages, 'eight', CHARTS.length);
checkAccess(pages, 'usual', 'dark');
checkAccess(pages, 'single', 'dark');
checkAccess(pages, 'trace', 'light');
checkAccess(pages, 'usual-brief', 'dark');

it('prints with no figure taller than a sheet of A4', async () => {
  // 16 mm and 15 mm of margins leave 180 mm by 265 mm, which is 680 by 1001 CSS pixels.
  await pages.onPage('eight', { viewport: { width: 680, height: 1001 } }, async (tab, address) => {
    await tab.goto(address);
    await tab.emulateMedia({ media: 'print' });
    // Single replications are left out on paper.
    const sizes = await tab.evaluate<[number, number][]>(sizesOf('figure'));
    expect(sizes).toHaveLength(CHARTS.length);
    for (const [, height] of nonEmpty(sizes)) expect(height).toBeLessThanOrEqual(1001);
  });
});
