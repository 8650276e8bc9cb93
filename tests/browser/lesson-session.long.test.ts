import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { LuckTable } from '../../src/chance/luck.js';
import { accountOf } from '../../src/lesson/session/account.js';
import { inSession } from '../../src/lesson/session/ending.js';
import { decisionsIn } from '../../src/lesson/session/link.js';
import { playSession, ruledSession } from '../../src/lesson/session/play.js';
import { Scenarios } from '../../src/lesson/task.js';
import { tipPicture } from '../../src/lesson/tasks/tip-picture.js';
import { waysQuestion } from '../../src/lesson/tasks/ways-question.js';
import { root } from '../support/command.js';
import { lessonOf, listenTo } from '../support/lesson.js';
import { longestTask } from '../support/main-thread.js';
import { openPages } from '../support/page-checks.js';
import { nonEmpty } from '../support/non-empty.js';

const TEXT = readFileSync(join(root, 'scenarios/lesson.yaml'), 'utf8');
const ASKED = { changes: [], seed: null, strategy: 'swap by hand' };
const SCENARIOS = new Scenarios(TEXT);
const model = inSession(SCENARIOS.strategy(ASKED, ASKED.strategy).model);
const LUCK = new LuckTable(SCENARIOS.with(ASKED).loaded.base.seed).replication(1);

/** The worker may have other parts of the page to answer first. */
const PATIENT = { timeout: 60_000 };

const { onPage } = openPages(async () => ({ lesson: await lessonOf() }));

const part = (tab: Page) => tab.locator('#part-session');
const press = (tab: Page, name: string) => part(tab).getByRole('button', { name, exact: true }).click();
const question = (tab: Page) => part(tab).getByRole('group', { name: /images?: /u });
const keeping = (tab: Page) => part(tab).getByRole('button', { name: /^Keep \d+ images?$/u });
const said = (tab: Page) => part(tab).locator('.said').first();

/** Waits until the session has come from the engine. */
async function opened(tab: Page, address: string): Promise<void> {
  await tab.goto(address);
  await expect.poll(() => said(tab).textContent(), PATIENT).toContain('press Play');
}

/** Plays on quickly up to the next question, or to the end. */
async function playOn(tab: Page): Promise<'asked' | 'over'> {
  const { play, asked, over } = {
    play: part(tab).getByRole('button', { name: 'Play', exact: true }),
    asked: question(tab),
    over: said(tab).filter({ hasText: 'over' }),
  };
  await tab.getByLabel('Speed').selectOption('20 minutes a second');
  if (!(await asked.isVisible()) && (await play.isVisible())) await play.click();
  await asked.or(over).first().waitFor({ timeout: PATIENT.timeout });
  return (await asked.isVisible()) ? 'asked' : 'over';
}

/** Decides about the tip, or takes images in doubt again, and waits until the engine has said what comes of it: where time ran, it then runs again. */
async function decide(tab: Page, choice: string): Promise<void> {
  const again = part(tab).getByRole('button', { name: /^Take .* again$/u });
  await ((await again.isVisible()) ? again.click() : press(tab, choice));
  await part(tab).locator('[aria-busy=false]').waitFor({ timeout: PATIENT.timeout });
}

function decided(tab: Page): string {
  return new URLSearchParams(new URL(tab.url()).hash.slice(1)).get('session-decisions') ?? '';
}

/** Numbers of the two accounts at the end, by their row. */
async function accounts(tab: Page): Promise<ReadonlyMap<string, readonly string[]>> {
  const rows = await part(tab).locator('.after table tbody tr').all();
  const read = await Promise.all(rows.map((row) => row.locator('th, td').allTextContents()));
  return new Map(read.map(([name, ...cells]) => [name, cells]));
}

describe('one session in the browser', () => {
  it('is played with the mouse up to its end, where it has the numbers of the engine, for the person and for the rules', async () => {
    await onPage('lesson', {}, async (tab, address) => {
      const { said: faults } = listenTo(tab);
      await opened(tab, address);
      for (const choice of ['Check it', 'Replace it', 'Go on with it', 'Clean it'])
        if ((await playOn(tab)) === 'asked') await decide(tab, choice);
      while ((await playOn(tab)) === 'asked') await decide(tab, 'Replace it');
      const decisions = decisionsIn(decided(tab));
      expect(decisions[0].choice).toBe('check');
      const mine = playSession('', model, LUCK, decisions);
      if (mine.outcome === null) throw new Error('It is not over.');
      const ruled = ruledSession('', model, LUCK);
      const both = [accountOf('', mine.outcome, mine), accountOf('', ruled.outcome, ruled)];
      const shown = await accounts(tab);
      expect(shown.get('Good images')).toEqual(both.map(({ good }) => String(good)));
      expect(shown.get('Tips used')).toEqual(both.map(({ tips }) => String(tips)));
      expect(shown.get('Attempts')).toEqual(both.map(({ attempts }) => String(attempts)));
      expect(await part(tab).getByText('apex radius').count()).toBeGreaterThan(2);
      expect(faults).toEqual([]);
    });
  });

  it('is played by keyboard alone: the question comes to the keyboard, and a link brings the decisions back', async () => {
    await onPage('lesson', {}, async (tab, address) => {
      await opened(tab, address);
      const focused = () => tab.evaluate<string>('document.activeElement.textContent');
      for (let tabs = 0; (await focused()) !== 'Next step'; tabs += 1) {
        expect(tabs).toBeLessThan(40);
        await tab.keyboard.press('Tab');
      }
      while (!(await question(tab).isVisible())) await tab.keyboard.press('Enter');
      expect(await focused()).toContain('images: ');
      while ((await focused()) !== 'Clean it') await tab.keyboard.press('Tab');
      await tab.keyboard.press('Enter');
      await question(tab).waitFor({ state: 'hidden' });
      await tab.waitForURL(/session-decisions/u);
      const link = tab.url();
      const tiles = part(tab).locator('.tiles').first();
      await expect.poll(() => said(tab).textContent(), PATIENT).toContain('Clean it');
      const before = await tiles.innerText();
      await tab.goto('about:blank');
      await opened(tab, link);
      expect(await tiles.innerText()).toBe(before);
    });
  });

  it.each([
    [1280, 720],
    [390, 664],
  ])('has the image and every choice on the screen together, without scrolling, at %i × %i', async (width, height) => {
    await onPage('lesson', { viewport: { width, height } }, async (tab, address) => {
      await opened(tab, address);
      expect(await playOn(tab)).toBe('asked');
      const inSight = async (what: string) => {
        const boxes = await Promise.all((await part(tab).locator(what).all()).map((each) => each.boundingBox()));
        for (const box of nonEmpty(boxes)) {
          expect(box?.y).toBeGreaterThanOrEqual(0);
          expect((box?.y ?? 0) + (box?.height ?? 0)).toBeLessThanOrEqual(height);
        }
        return boxes.length;
      };
      expect(await inSight('.scan canvas:visible')).toBe(1);
      expect(await inSight('.asked button:visible')).toBe(4);
      await press(tab, 'Check it');
      await keeping(tab).waitFor();
      expect(await inSight('.scan canvas:visible')).toBe(1);
      expect(await inSight('.asked button:visible')).toBe(2);
    });
  });

  it('says how many images a failed check puts in doubt, and keeps them for whoever wants that', async () => {
    await onPage('lesson', {}, async (tab, address) => {
      await opened(tab, address);
      await playOn(tab);
      await press(tab, 'Check it');
      await keeping(tab).waitFor();
      const count = /\d+/u.exec((await keeping(tab).textContent()) ?? '')?.[0] ?? '';
      expect(await question(tab).textContent()).toMatch(
        new RegExp(`${count} images? since its last passed check (?:is|are) in doubt`, 'u'),
      );
      await keeping(tab).click();
      await question(tab).getByText('The tip failed its check.').waitFor();
      const [, second] = decisionsIn(decided(tab));
      expect(second.choice).toBe('keep');
    });
  });

  it('never holds up the page for 100 ms of the processor while it plays, nor as it ends', { retry: 3 }, async () => {
    await onPage('lesson', {}, async (tab, address) => {
      await opened(tab, address);
      const longest = await longestTask(tab, async () => {
        while ((await playOn(tab)) === 'asked') await decide(tab, 'Replace it');
      });
      expect(longest).toBeLessThan(100);
    });
  });

  it('stops before the next image for whoever wants to inspect the tip, who may also take that back', async () => {
    await onPage('lesson', {}, async (tab, address) => {
      await opened(tab, address);
      await tab.getByLabel('Speed').selectOption('20 minutes a second');
      await press(tab, 'Inspect tip');
      await question(tab).waitFor();
      expect(await question(tab).textContent()).toContain('You stopped before the next image.');
      await press(tab, 'Go on with it');
      await question(tab).waitFor({ state: 'hidden' });
      expect(decided(tab)).toBe('');
    });
  });

  it('shows a scan as the engine says that the tip shows it, and the surface beside it at the end', async () => {
    await onPage('lesson', {}, async (tab, address) => {
      await opened(tab, address);
      await playOn(tab);
      const scans = playSession('', model, LUCK, []).steps.flatMap(({ scan }) => scan ?? []);
      const [last] = scans.slice(-1);
      const asked = { ...ASKED, replication: 1, ...last };
      let shown: Uint8Array = new Uint8Array();
      for await (const each of tipPicture(asked, SCENARIOS)) shown = each.shown;
      await part(tab).getByText('black to white is').waitFor();
      const program = `[...document.querySelector('#part-session canvas').getContext('2d').getImageData(0, 0, 128, 128).data]`;
      const pixels = await tab.evaluate<number[]>(program);
      expect(pixels.filter((_, i) => i % 4 === 0)).toEqual(Array.from(shown));
      expect(nonEmpty(pixels.filter((_, i) => i % 4 === 3)).every((alpha) => alpha === 255)).toBe(true);
    });
  });

  it('asks a question that the engine answers as it does elsewhere', async () => {
    let right: string | null = null;
    for await (const each of waysQuestion(ASKED, SCENARIOS)) right = each.right;
    await onPage('lesson', {}, async (tab, address) => {
      await opened(tab, address);
      const quiz = part(tab).locator('#waysQuestion');
      await quiz.getByLabel(right ?? 'none').check();
      await quiz.getByRole('button').click();
      await expect.poll(() => quiz.locator('.said').textContent(), PATIENT).toContain('Right.');
    });
  });
});
