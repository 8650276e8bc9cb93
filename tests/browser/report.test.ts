import { expect, it } from 'vitest';
import { CHARTS } from '../../src/studies/compare/charts/index.js';
import { tracePage } from '../../src/report/trace.js';
import { checkAccess, checkPage, openPages, sizesOf } from '../support/page-checks.js';
import { reportTexts } from '../support/report-texts.js';
import { sampleComparison, singleSample } from '../support/sample-summary.js';
import { nonEmpty } from '../support/non-empty.js';

const command = 'swap-or-hop compare oxide-fields.yaml --seed 1';

const pages = openPages(async () => {
  const samples = {
    usual: sampleComparison({ strategies: 3, images: 48, bookings: true, decided: false, replications: 100 }),
    single: singleSample(),
    eight: sampleComparison({ strategies: 8, images: 800, bookings: true, replications: 100 }),
  };
  const written: Record<string, string> = {};
  for (const [name, sample] of Object.entries(samples)) {
    const files = await reportTexts(sample);
    written[name] = files.get('report.html') ?? '';
    written[`${name}-brief`] = files.get('brief.html') ?? '';
  }
  const { summary } = samples.usual;
  const events = [{ time: 0, clock: 'Mo 09:00:00', instrument: 0, what: 'start', detail: 'set up' }];
  const { tool, platform, inputs } = summary;
  const provenance = { tool, platform, inputs, command };
  const traced = { title: 'Oxide', strategy: 'Swap', replication: 3, seed: '1', ...provenance };
  return { ...written, trace: await tracePage(summary.shown[0].timelines[0], events, traced) };
});

checkPage(pages, 'usual', CHARTS.length);
checkPage(pages, 'single', CHARTS.length - 2);
checkPage(pages, 'eight', CHARTS.length);
checkPage(pages, 'trace', 1);
checkAccess(pages, 'usual', 'light');
checkAccess(pages, 'usual', 'dark');
checkAccess(pages, 'single', 'dark');
checkAccess(pages, 'trace', 'light');
checkAccess(pages, 'trace', 'dark');
checkAccess(pages, 'usual-brief', 'light');
checkAccess(pages, 'usual-brief', 'dark');

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
