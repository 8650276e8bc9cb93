import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { inEmptyFolder, swapOrHop } from '../support/command.js';
import { exploreOf, record, wholeAnswer } from '../support/explore.js';
import { openPages } from '../support/page-checks.js';

const REPLICATIONS = 48;

const pages = openPages(async () => ({ guided: await exploreOf(null) }));

const told = z.object({
  differences: z.array(z.unknown()),
  strategies: z.array(z.object({ name: z.string(), measures: z.unknown(), finishes: z.unknown() })),
});

/** How somebody does things: with a mouse, or with nothing but keys. */
interface Hand {
  readonly press: (tab: Page, button: RegExp) => Promise<void>;
  readonly fill: (tab: Page, label: RegExp, text: string) => Promise<void>;
}

const mouse: Hand = {
  press: async (tab, name) => {
    await tab.getByRole('button', { name }).first().click();
  },
  fill: async (tab, name, text) => {
    const field = tab
      .getByRole('textbox', { name })
      .or(tab.getByRole('searchbox', { name }))

      .first();
    await field.click({ clickCount: 3 });
    await field.pressSequentially(text);
    await tab.locator('h1').click();
  },
};

/** What has the focus, as it is named. */
const NAME = `(() => { const at = document.activeElement; return [at.tagName, at.textContent, at.labels?.[0]?.textContent ?? ''].join('|'); })()`;

/** Goes on with Tab to what has a name. */
async function tabTo(tab: Page, name: RegExp, tag: RegExp): Promise<void> {
  for (let tries = 0; tries < 200; tries += 1) {
    const [element, text = '', label = ''] = (await tab.evaluate<string>(NAME)).split('|');
    if (tag.test(element) && (name.test(text) || name.test(label))) return;
    await tab.keyboard.press('Tab');
  }
  throw new Error(`nothing called ${String(name)} comes by Tab`);
}

const keyboard: Hand = {
  press: async (tab, name) => {
    await tabTo(tab, name, /^BUTTON$/u);
    await tab.keyboard.press('Enter');
  },
  fill: async (tab, name, text) => {
    await tabTo(tab, name, /^INPUT$/u);
    await tab.keyboard.press('ControlOrMeta+a');
    await tab.keyboard.type(text);
    await tab.keyboard.press('Enter');
  },
};

describe.each([
  ['a mouse', mouse],
  ['the keyboard alone', keyboard],
])('a whole job with %s', (_, { press, fill }) => {
  it('goes from questions over three changes to a file of which preview and compare give the same numbers', async () => {
    await inEmptyFolder(async (cwd) => {
      const file = join(cwd, 'my-plan.yaml');
      let answer: unknown = null;
      await pages.onPage('guided', { acceptDownloads: true }, async (tab, address) => {
        await record(tab);
        await tab.goto(address);
        await press(tab, /^Begin with/u);
        await fill(tab, /How many samples/u, '2');
        await press(tab, /^Next/u);
        await press(tab, /^Take the defaults/u);
        await tab.getByLabel('Find a value').waitFor();
        for (const [sought, label, value] of [
          ['plan.regions', /regions of/iu, '5'],
          ['lineRate', /Line rate/iu, '2 Hz'],
          ['price', /price/iu, '35 EUR'],
        ] as const) {
          await fill(tab, /Find a value/u, sought);
          await fill(tab, label, value);
        }
        await fill(tab, /^Replications/u, String(REPLICATIONS));
        answer = await wholeAnswer(tab, REPLICATIONS);
        const coming = tab.waitForEvent('download');
        await press(tab, /^Save the scenario/u);
        await (await coming).saveAs(file);
      });
      const text = readFileSync(file, 'utf8');
      expect(text).toMatch(/samples: 2 # your answer[\s\S]*regions: 5 #[\s\S]*lineRate: 2 Hz #[\s\S]*35 EUR/u);
      expect(await swapOrHop(['preview', file], { cwd })).toMatchObject({ code: 0 });
      const args = ['compare', file, '--replications', String(REPLICATIONS), '--json', '--quiet'];
      const { code, stdout } = await swapOrHop(args, { cwd });
      expect(code).toBe(0);
      expect(z.object({ summary: told }).parse(answer).summary).toEqual(told.parse(JSON.parse(stdout)));
    });
  });
});
