import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { says } from './lesson.js';
import { axe, type OpenPages, VIOLATIONS } from './page-checks.js';

/** How a page is looked at: in which colours, and how wide. */
export type Sight = readonly [colorScheme: 'light' | 'dark', width: number];

const optionsOf = ([colorScheme, width]: Sight) =>
  // axe is a script, which the page's own policy forbids: it is let in here only.
  ({ colorScheme, bypassCSP: true, viewport: { width, height: 900 } });

async function check(tab: Page, [, width]: Sight): Promise<void> {
  expect(await tab.evaluate<number>('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
  await tab.evaluate(axe);
  expect(await tab.evaluate(VIOLATIONS)).toEqual([]);
}

/** Holds a page of explore to axe-core with all unfolded, pinned, changed, along a range, and then with a fault. */
export async function checkUnfolded({ onPage }: OpenPages, page: string, sight: Sight): Promise<void> {
  await onPage(page, optionsOf(sight), async (tab, address) => {
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
    await check(tab, sight);
    await regions.fill('many');
    await regions.press('Enter');
    await tab.locator('.field .fault').waitFor();
    await check(tab, sight);
  });
}

/** Holds the page that begins without a scenario to axe-core: at first, in its questions with a fault, here and in an earlier group, and in its text. */
export async function checkQuestions({ onPage }: OpenPages, page: string, sight: Sight): Promise<void> {
  await onPage(page, optionsOf(sight), async (tab, address) => {
    await tab.goto(address);
    await check(tab, sight);
    await tab.getByRole('button', { name: 'Begin with a few questions' }).click();
    await tab.getByLabel('How many kinds of image').selectOption('2');
    await tab.getByLabel('How many samples').fill('three');
    await tab.getByLabel('How many samples').press('Enter');
    await tab.locator('.fault').first().waitFor();
    await check(tab, sight);
    await tab.getByRole('button', { name: 'Next' }).click();
    await tab.getByText('Back to').waitFor();
    await check(tab, sight);
    await tab.getByRole('button', { name: 'Take the defaults' }).click();
    await tab.getByRole('button', { name: 'YAML text' }).click();
    await check(tab, sight);
  });
}
