import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { loadScenario } from '../../src/scenario/load.js';
import { hostileScenario } from '../hostile/words.js';
import { root } from '../support/command.js';
import { checkQuestions, checkUnfolded } from '../support/explore-access.js';
import { dropFile, exploreOf, holdToCompare } from '../support/explore.js';
import { listenTo, says } from '../support/lesson.js';
import { openPages } from '../support/page-checks.js';

const small = readFileSync(join(root, 'tests/support/small.yaml'), 'utf8');
const islands = readFileSync(join(root, 'scenarios/ambient-islands.yaml'), 'utf8');

const pages = openPages(async () => {
  const page = await exploreOf(small);
  return {
    small: page,
    guided: await exploreOf(null),
    broken: page.replace('</body>', `${INTRUDER}</body>`),
  };
});

/** What somebody would put into the page who found a hole in it. */
const INTRUDER = `<script>window.ran = 'script'</script><img src="data:image/png;base64,AAAA" onerror="window.ran = 'handler'">
<style>body { background: url(http://127.0.0.1:9/b.png) }</style><iframe srcdoc="<script>parent.ran = 'frame'</script>"></iframe>
<form id="form" action="http://127.0.0.1:9/"><button>go</button></form><a id="link" href="javascript:window.ran = 'link'">link</a>`;

describe('explore in Chromium', () => {
  it('gives the numbers of compare for small to the last digit', async () => {
    await pages.onPage('small', {}, async (tab, address) => {
      await holdToCompare(tab, address, small, 64);
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

  it('runs nothing that is put into it, and sends nothing, by its policy', async () => {
    await pages.onPage('broken', {}, async (tab, address) => {
      const fetched: string[] = [];
      tab.on('requestfinished', (request) => fetched.push(request.url()));
      await tab.goto(address);
      await tab.evaluate("document.querySelector('#link').click()");
      await tab.evaluate("document.querySelector('#form').submit()");
      await tab.waitForTimeout(300);
      expect(await tab.evaluate<unknown>('window.ran ?? null')).toBeNull();
      expect(fetched.filter((url) => !/^(?:data|blob|about):/u.test(url))).toEqual([address]);
    });
  });

  describe('in light at 390 pixels', () => {
    it('has no violation that axe-core knows with all unfolded, pinned, changed, along a range and with a fault', async () => {
      await checkUnfolded(pages, 'small', ['light', 390]);
    });

    it('has none in the questions, and in the text beside a fault', async () => {
      await checkQuestions(pages, 'guided', ['light', 390]);
    });
  });

  it('is a page of at most 900 kB', async () => {
    expect((await exploreOf(islands)).length).toBeLessThan(900_000);
  });
});
