import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { runInProcess } from '../../src/execution/in-process.js';
import { worthWork } from '../../src/studies/worth/worth.js';
import { ALL } from '../hostile/words.js';
import { root } from '../support/command.js';
import { checkQuestions, checkUnfolded } from '../support/explore-access.js';
import { dropFile, exploreOf, holdToCompare, longestPaint, record } from '../support/explore.js';
import { listenTo, says } from '../support/lesson.js';
import { openPages } from '../support/page-checks.js';
import { loadedOf } from '../support/run.js';

const small = readFileSync(join(root, 'tests/support/small.yaml'), 'utf8');
const islands = readFileSync(join(root, 'scenarios/ambient-islands.yaml'), 'utf8');
/** Two passes of so many regions: ten thousand images. */
const large = small.replace('regions: 3', 'regions: 10000').replace('sites: { sharp: 20 }', 'sites: { sharp: 5000 }');

const pages = openPages(async () => ({
  small: await exploreOf(small),
  islands: await exploreOf(islands),
  large: await exploreOf(large),
  guided: await exploreOf(null),
}));

/** The page at its first question. */
async function asked(options: Parameters<typeof pages.onPage>[1], look: (tab: Page) => Promise<void>): Promise<void> {
  await pages.onPage('guided', options, async (tab, address) => {
    await tab.goto(address);
    await tab.getByRole('button', { name: 'Begin with a few questions' }).click();
    await look(tab);
  });
}

async function answer(tab: Page, question: string, text: string): Promise<void> {
  const field = tab.getByRole('textbox', { name: question });
  await field.fill(text);
  await field.press('Enter');
}

describe('explore in Chromium', () => {
  it('gives the numbers of compare for islands to the last digit', async () => {
    await pages.onPage('islands', {}, async (tab, address) => {
      await holdToCompare(tab, address, islands, 40);
    });
  });

  it('has the whole table of the verdict beside the form, without scrolling, at 1280 pixels', async () => {
    await pages.onPage('islands', { viewport: { width: 1280, height: 900 } }, async (tab, address) => {
      await tab.goto(address);
      await says(tab, '[role=status]', /^Complete/);
      const [needed, given] = await tab.evaluate<number[]>(
        "(() => { const at = document.querySelector('.verdict .wide'); return [at.scrollWidth, at.clientWidth]; })()",
      );
      expect(needed).toBeLessThanOrEqual(given);
      expect(
        await tab.evaluate<number>("parseFloat(getComputedStyle(document.querySelector('.verdict small')).fontSize)"),
      ).toBeGreaterThanOrEqual(13);
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

  it('finds a value by the words of a question, and has the spread of a step go along with its usual time', async () => {
    await pages.onPage('islands', {}, async (tab, address) => {
      await tab.goto(address);
      const sought = tab.getByLabel('Find a value');
      await sought.fill('how many tips on the chip');
      await tab.getByRole('textbox', { name: /^Tips \(sites\) on a chip/u }).waitFor();
      expect(await tab.locator('.field', { hasText: 'chipping' }).count()).toBe(0);
      await sought.fill('steps.exchange');
      const usual = tab.getByRole('textbox', { name: /^Exchange the probe by hand: usual time/u });
      await usual.fill('6 min');
      await usual.press('Enter');
      const spread = tab.getByRole('textbox', { name: /^Exchange the probe by hand: 90th percentile/u });
      await expect.poll(() => spread.inputValue()).toBe('10 min');
      expect(await tab.locator('.fault').count()).toBe(0);
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
      await tab.getByText('Changed since A').waitFor({ state: 'detached' });
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
      const { values, records } = runInProcess(
        worthWork(loadedOf(assumed), { file: '', sha256: '', toolVersion: '', draws: 500 }),
      );
      expect(found).toMatchObject({ values, records, draws: 500 });
    });
  });

  describe('its questions', () => {
    it('say beside the answer that sets it what lines cannot resolve, and move the default with them', async () => {
      await asked({}, async (tab) => {
        await answer(tab, 'How large is an image', '5 um');
        await tab.getByText('“Which distance must be resolved in it?” 40 nm (was 10 nm)').waitFor();
        await answer(tab, 'Which distance must be resolved', '10 nm');
        const fault = tab.locator('.field', { hasText: 'Which distance must be resolved' }).locator('.fault');
        await fault.waitFor();
        expect(await fault.textContent()).toMatch(
          /5 um in 256 lines is 19.5 nm a line; a distance takes two, so 10 nm cannot be resolved/u,
        );
        expect(await tab.getByLabel('Which distance must be resolved').getAttribute('aria-invalid')).toBe('true');
        expect(await tab.locator('.fault').count()).toBe(1);
      });
    });

    it('say beside an answer what it makes wrong in another group, and lead back there from any later one', async () => {
      await asked({}, async (tab) => {
        await tab.getByRole('button', { name: 'Next' }).click();
        await answer(tab, 'How sharp is a new one', '80 nm');
        const fault = tab.locator('.field', { hasText: 'How sharp is a new one' }).locator('.fault');
        await fault.waitFor();
        expect(await fault.textContent()).toMatch(/tells [\d.]+ nm apart/u);
        await tab.getByRole('button', { name: 'Next' }).click();
        await tab.getByRole('button', { name: 'Back to “What is measured, and where”' }).click();
        await tab.getByLabel('Which distance must be resolved').waitFor();
        expect(await tab.locator('.field .fault').count()).toBe(1);
      });
    });

    it('take what was measured here for a source', async () => {
      await asked({}, async (tab) => {
        await tab.getByRole('button', { name: 'Next' }).click();
        await tab.getByLabel('How well it is known: What does one cost?').selectOption('measured here');
        await tab.getByRole('button', { name: 'Take the defaults' }).click();
        await tab.getByRole('button', { name: 'YAML text' }).click();
        const text = tab.getByLabel('Scenario (YAML)');
        await expect
          .poll(() => text.inputValue(), { timeout: 10_000 })
          .toContain("tips.sharp.price: 'measured here, as answered at the start'");
      });
    });

    it.each([
      [1280, 800],
      [390, 844],
    ])('begin at the top with each group, the verdict beside them, at %i pixels', async (width, height) => {
      await asked({ viewport: { width, height } }, async (tab) => {
        await tab.locator('.verdict').waitFor();
        for (const button of ['Next', 'Next', 'Back', 'Take the defaults']) {
          await tab.getByRole('button', { name: button }).click();
          const [plan, column, verdict] = await tab.evaluate<[number, number, number]>(
            `(() => { const [plan, verdict] = ['.plan', '.verdict'].map((each) => document.querySelector(each));
              return [plan.getBoundingClientRect().top, plan.scrollTop, verdict.getBoundingClientRect().top]; })()`,
          );
          expect(plan).toBeGreaterThan(-2);
          expect(plan).toBeLessThan(60);
          expect(column).toBe(0);
          if (width > 1000) expect(verdict).toBeLessThan(120);
          expect(await tab.evaluate<string>('getComputedStyle(document.activeElement).outlineStyle')).toBe('none');
        }
      });
    });
  });

  describe.each([
    ['light', 1280],
    ['dark', 390],
    ['dark', 1280],
  ] as const)('in %s at %i pixels', (...sight) => {
    it('has no violation that axe-core knows with all unfolded, pinned, changed, along a range and with a fault', async () => {
      await checkUnfolded(pages, 'small', sight);
    });

    it('has none in the questions, and in the text beside a fault', async () => {
      await checkQuestions(pages, 'guided', sight);
    });
  });
});
