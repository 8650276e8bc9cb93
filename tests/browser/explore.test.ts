import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { runInProcess } from '../../src/execution/in-process.js';
import { loadScenario } from '../../src/scenario/load.js';
import { compare } from '../../src/studies/compare/compare.js';
import { worthWork } from '../../src/studies/worth/worth.js';
import { ALL, hostileScenario } from '../hostile/words.js';
import { root } from '../support/command.js';
import { dropFile, exploreOf, longestPaint, record, wholeAnswer } from '../support/explore.js';
import { listenTo, says } from '../support/lesson.js';
import { axe, openPages, VIOLATIONS } from '../support/page-checks.js';

const small = readFileSync(join(root, 'tests/support/small.yaml'), 'utf8');
const islands = readFileSync(join(root, 'scenarios/ambient-islands.yaml'), 'utf8');
/** Two passes of so many regions: ten thousand images. */
const large = small.replace('regions: 3', 'regions: 10000').replace('sites: { sharp: 20 }', 'sites: { sharp: 5000 }');

const pages = openPages(async () => {
  const page = await exploreOf(small);
  return {
    small: page,
    islands: await exploreOf(islands),
    large: await exploreOf(large),
    guided: await exploreOf(null),
    broken: page.replace('</body>', `${INTRUDER}</body>`),
  };
});

/** What somebody would put into the page who found a hole in it. */
const INTRUDER = `<script>window.ran = 'script'</script><img src="data:image/png;base64,AAAA" onerror="window.ran = 'handler'">
<style>body { background: url(http://127.0.0.1:9/b.png) }</style><iframe srcdoc="<script>parent.ran = 'frame'</script>"></iframe>
<form id="form" action="http://127.0.0.1:9/"><button>go</button></form><a id="link" href="javascript:window.ran = 'link'">link</a>`;

/** What `compare` finds, as far as the page shows it. */
function compared(text: string, replications: number): object {
  const read = loadScenario(text);
  if (!read.ok) throw new Error('the scenario is sound');
  const { summary } = compare(read.scenario, { file: 'scenario.yaml', sha256: '', toolVersion: '', replications });
  const { strategies, differences, verdict, assumptions, parameterUncertainty } = summary;
  return {
    ...{ replications, differences, verdict, assumptions, parameterUncertainty },
    strategies: strategies.map((strategy) => ({ ...strategy, images: [] })),
  };
}

describe('explore in Chromium', () => {
  it.each([
    ['small', small, 64],
    ['islands', islands, 40],
  ])('gives the numbers of compare for %s to the last digit', async (name, text, replications) => {
    await pages.onPage(name, {}, async (tab, address) => {
      await record(tab);
      await tab.goto(address);
      await tab.getByLabel('Replications').fill(String(replications));
      await tab.getByLabel('Replications').press('Enter');
      const answer = await wholeAnswer(tab, replications);
      expect(answer).toMatchObject({ isTried: true, summary: compared(text, replications) });
    });
  });

  it('logs nothing and asks for nothing but itself', async () => {
    await pages.onPage('small', {}, async (tab, address) => {
      const { said, asked } = listenTo(tab);
      await tab.goto(address);
      await says(tab, '[role=status]', /^Complete/);
      expect(said).toEqual([]);
      expect(asked.filter((url) => !url.startsWith('blob:'))).toEqual([address]);
    });
  });

  it('changes text, figures and their change with a slider, and keeps the comments', async () => {
    await pages.onPage('islands', {}, async (tab, address) => {
      await record(tab);
      await tab.goto(address);
      await says(tab, '[role=status]', /1024 replications|2000 replications/);
      await tab.waitForTimeout(800);
      await tab.getByLabel('Find a value').fill('steps.exchange');
      const slider = tab.getByRole('slider').first();
      await slider.focus();
      for (let step = 0; step < 10; step += 1) await tab.keyboard.press('ArrowRight');
      await tab.getByText('Changed since the last setting').waitFor();
      await tab.getByRole('button', { name: 'YAML text' }).click();
      const text = await tab.getByLabel('Scenario (YAML)').inputValue();
      expect(text).toMatch(/exchange:/);
      expect(text).toContain('# the first contact can be the last one');
      expect(await longestPaint(tab)).toBeLessThan(200);
    });
  });

  it('draws the time of each strategy along the plausible range of a value, and again for another setting', async () => {
    await pages.onPage('islands', {}, async (tab, address) => {
      await record(tab);
      await tab.goto(address);
      await tab.getByLabel('Find a value').fill('prepare.mode');
      await tab.getByRole('button', { name: 'Time along the range' }).click();
      await tab.locator('.field figure canvas').waitFor();
      await tab.locator('.field figure summary').click();
      const values = await tab.locator('.field tbody th').allTextContents();
      expect(values).toEqual(['22.5 min', '28.3 min', '35.7 min', '45 min', '56.7 min', '71.4 min', '90 min']);
      await tab.getByRole('slider').first().press('ArrowRight');
      await tab
        .locator('.field tbody th')
        .filter({ hasText: '91.' })
        .or(tab.locator('.field tbody th').filter({ hasText: '92.' }))
        .first()
        .waitFor();
    });
  });

  it('pins two settings and compares both with what is set, and with each other', async () => {
    await pages.onPage('small', {}, async (tab, address) => {
      await tab.goto(address);
      await says(tab, '[role=status]', /^Complete/);
      await tab.getByRole('button', { name: 'Pin as A' }).click();
      await tab.getByText('Setting A, pinned').waitFor();
      await tab.getByLabel('Find a value').fill('plan.regions');
      await tab.getByRole('textbox', { name: /regions of/iu }).fill('5');
      await tab.getByRole('textbox', { name: /regions of/iu }).press('Enter');
      await tab.getByText('Changed since A').waitFor();
      await tab.getByRole('button', { name: 'Pin as B' }).click();
      await tab.getByText('From A to B').waitFor();
    });
  });

  it('carries by a link what differs from its own scenario', async () => {
    await pages.onPage('small', {}, async (tab, address) => {
      await tab.goto(`${address}#set.plan.regions=7&set.plan.passes.islands.lines=128`);
      await tab.getByRole('button', { name: 'YAML text' }).click();
      for (const text of ['regions: 7', 'lines: 128'])
        await expect.poll(() => tab.getByLabel('Scenario (YAML)').inputValue(), { timeout: 10_000 }).toContain(text);
    });
  });

  it('shows what is wrong with a value beside it, in the words of the command line, and mends it', async () => {
    await pages.onPage('small', {}, async (tab, address) => {
      await tab.goto(address);
      await tab.getByLabel('Find a value').fill('lineRate');
      const field = tab.getByRole('textbox', { name: /line rate/i });
      await field.fill('fast');
      await field.press('Enter');
      const fault = tab.locator('.field .fault');
      await fault.waitFor();
      const read = loadScenario(small.replace('lines: 64', 'lines: 64, lineRate: fast'));
      if (read.ok) throw new Error('the scenario is wrong');
      expect(await fault.textContent()).toBe(read.faults[0].message);
      await field.fill('2 Hz');
      await field.press('Enter');
      await fault.waitFor({ state: 'detached' });
    });
  });

  it.each([
    ['a name full of markup', small.replace('title:', 'title: "<img src=x onerror=window.ran=1>"\ntitel:')],
    ['no YAML at all', `]] ${ALL}`],
    ['a bomb of references', `a: &a [1,2,3]\nb: &b [*a,*a,*a]\nc: [*b,*b,*b]\n`],
    ['a chain of maps', '{a: '.repeat(5000)],
  ])('shows nothing but faults of a file dropped on it that holds %s', async (_, text) => {
    await pages.onPage('small', {}, async (tab, address) => {
      const { said } = listenTo(tab);
      await tab.goto(address);
      await says(tab, '[role=status]', /^Complete/);
      await dropFile(tab, 'dropped.yaml', text);
      await tab.locator('.faults .error').first().waitFor();
      await says(tab, '[role=status]', /faults/);
      expect(await tab.evaluate<unknown>('window.ran ?? null')).toBeNull();
      expect(said).toEqual([]);
    });
  });

  it('shows names full of markup and of signs that turn lines as plain text', async () => {
    await pages.onPage('small', {}, async (tab, address) => {
      const { said } = listenTo(tab);
      await tab.goto(address);
      await dropFile(tab, 'dropped.yaml', hostileScenario());
      await tab.getByRole('heading', { level: 1 }).filter({ hasText: '<script' }).waitFor();
      await says(tab, '[role=status]', /^Complete/);
      expect(await tab.evaluate<unknown>('window.ran ?? null')).toBeNull();
      expect(said).toEqual([]);
    });
  });

  it('goes on answering to the hand while it runs a plan of 10 000 images', async () => {
    await pages.onPage('large', {}, async (tab, address) => {
      await record(tab);
      await tab.goto(address);
      await tab.getByLabel('Find a value').fill('line');
      await tab.getByLabel('Find a value').fill('');
      for (const place of [0, 1, 2, 3]) await tab.locator('summary').nth(place).click();
      await says(tab, '[role=status]', /16 replications/);
      expect(await longestPaint(tab)).toBeLessThan(200);
    });
  });

  it('runs nothing that is put into it, and sends nothing, by its policy', async () => {
    await pages.onPage('broken', {}, async (tab, address) => {
      const fetched: string[] = [];
      tab.on('requestfinished', (request) => fetched.push(request.url()));
      await tab.goto(address);
      await tab.locator('#link').click({ force: true });
      await tab.evaluate("document.querySelector('#form').submit()");
      await tab.waitForTimeout(300);
      expect(await tab.evaluate<unknown>('window.ran ?? null')).toBeNull();
      expect(fetched.filter((url) => !/^(?:data|blob|about):/u.test(url))).toEqual([address]);
    });
  });

  it('marks on a slider the value that the source or the default gives, and says so to who cannot see it', async () => {
    await pages.onPage('islands', {}, async (tab, address) => {
      await tab.goto(address);
      await tab.getByLabel('Find a value').fill('prepare.mode');
      const slider = tab.getByRole('slider').first();
      const notes = tab.locator(`[id="${(await slider.getAttribute('aria-describedby')) ?? ''}"]`);
      expect(await notes.textContent()).toContain('The mark on the slider is at 45 min');
      const left = () => tab.evaluate<string>("document.querySelector('.tick').style.left");
      const before = await left();
      await slider.press('ArrowRight');
      await expect.poll(() => notes.textContent(), { timeout: 20_000 }).toContain('Mark: 45 min');
      expect(await left()).toBe(before);
    });
  });

  it('says what to measure first as worth does with as many draws, once it is asked for', async () => {
    const assumed = small.replace('  workflows: measured for this test\n', '');
    await pages.onPage('small', {}, async (tab, address) => {
      await record(tab);
      await tab.goto(address);
      await says(tab, '[role=status]', /^Complete/);
      await dropFile(tab, 'assumed.yaml', assumed);
      await says(tab, '[role=status]', /^Complete/);
      await tab.getByRole('button', { name: 'Work it out' }).click();
      await tab.locator('.measure table').waitFor({ timeout: 60_000 });
      const found = await tab.evaluate<unknown>("window.heard.find(({ kind }) => kind === 'worth').worth");
      const read = loadScenario(assumed);
      if (!read.ok) throw new Error('the scenario is sound');
      const { values, records } = runInProcess(
        worthWork(read.scenario, { file: '', sha256: '', toolVersion: '', draws: 500 }),
      );
      expect(found).toMatchObject({ values, records, draws: 500 });
    });
  });

  it('has the whole table of the verdict beside the form, without scrolling, at 1280 pixels', async () => {
    await pages.onPage('islands', { viewport: { width: 1280, height: 900 } }, async (tab, address) => {
      await tab.goto(address);
      await tab.locator('.verdict table').waitFor();
      const [needed, given] = await tab.evaluate<number[]>(
        "(() => { const at = document.querySelector('.verdict .wide'); return [at.scrollWidth, at.clientWidth]; })()",
      );
      expect(needed).toBeLessThanOrEqual(given);
      expect(
        await tab.evaluate<number>("parseFloat(getComputedStyle(document.querySelector('.verdict small')).fontSize)"),
      ).toBeGreaterThanOrEqual(13);
    });
  });

  describe.each([
    ['light', 390],
    ['light', 1280],
    ['dark', 390],
    ['dark', 1280],
  ] as const)('in %s at %i pixels', (colorScheme, width) => {
    const options = { colorScheme, bypassCSP: true, viewport: { width, height: 900 } };
    const check = async (tab: Page) => {
      expect(await tab.evaluate<number>('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
      await tab.evaluate(axe);
      expect(await tab.evaluate(VIOLATIONS)).toEqual([]);
    };

    it('has no violation that axe-core knows with all unfolded, pinned, changed, along a range and with a fault', async () => {
      await pages.onPage('small', options, async (tab, address) => {
        await tab.goto(address);
        await says(tab, '[role=status]', /^Complete/);
        await tab.getByRole('button', { name: 'Pin as A' }).click();
        await tab.getByText('Setting A, pinned').waitFor();
        await tab.getByLabel('Find a value').fill('plan.regions');
        const regions = tab.getByRole('textbox', { name: /regions of/iu });
        await regions.fill('5');
        await regions.press('Enter');
        await tab.getByText('Changed since A').waitFor();
        await tab.getByRole('button', { name: 'Time along the range' }).click();
        await tab.getByText('Best for').first().waitFor({ timeout: 60_000 });
        await tab.getByLabel('Find a value').fill('');
        for (const summary of await tab.locator('summary').all()) await summary.click();
        await check(tab);
        await regions.fill('many');
        await regions.press('Enter');
        await tab.locator('.field .fault').waitFor();
        await check(tab);
      });
    });

    it('has none in the questions, and in the text beside a fault', async () => {
      await pages.onPage('guided', options, async (tab, address) => {
        await tab.goto(address);
        await check(tab);
        await tab.getByRole('button', { name: 'Begin with a few questions' }).click();
        await tab.getByLabel('How many kinds of image').selectOption('2');
        await tab.getByLabel('How many samples').fill('three');
        await tab.getByLabel('How many samples').press('Enter');
        await tab.locator('.fault').first().waitFor();
        await check(tab);
        await tab.getByRole('button', { name: 'Take the defaults' }).click();
        await tab.getByRole('button', { name: 'YAML text' }).click();
        await check(tab);
      });
    });
  });

  it('is a page of at most 900 kB', async () => {
    expect((await exploreOf(islands)).length).toBeLessThan(900_000);
  });
});
