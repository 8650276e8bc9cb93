import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { swapOrHop } from './command.js';
import { axe, type OpenPages, VIOLATIONS } from './page-checks.js';

/** The page that the command writes for a scenario; its own where none is named. */
export async function lessonOf(...file: readonly string[]): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'lesson-'));
  try {
    const out = join(folder, 'lesson.html');
    const outcome = await swapOrHop(['lesson', ...file, '--out', out]);
    expect(outcome).toMatchObject({ code: 0, stdout: '' });
    return readFileSync(out, 'utf8');
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const none = (): string[] => [];

/** Everything that a page logs or asks for, from now on. */
export function listenTo(tab: Page): { readonly said: string[]; readonly asked: string[] } {
  const heard = { said: none(), asked: none() };
  tab.on('console', (message) => heard.said.push(message.text()));
  tab.on('pageerror', (error) => heard.said.push(error.message));
  tab.on('request', (request) => heard.asked.push(request.url()));
  return heard;
}

/** Waits until a place of the page says something that fits. */
export async function says(tab: Page, place: string, text: RegExp): Promise<string> {
  const found = tab.locator(place).filter({ hasText: text }).first();
  await found.waitFor({ timeout: 200_000 });
  return (await found.textContent()) ?? '';
}

/** Asks for the answer to a question before and after one was chosen. */
export async function answerIn(tab: Page, question: string, answer: string, verdict: RegExp): Promise<void> {
  const box = tab.locator(`#${question}`);
  await box.getByRole('button', { name: 'Check answer' }).click();
  await says(tab, `#${question} [role=status]`, /^Choose an answer first/);
  await box.getByLabel(answer, { exact: true }).check();
  await box.getByRole('button', { name: 'Check answer' }).click();
  await says(tab, `#${question} [role=status]`, verdict);
}

/** Holds the whole lesson, once it has computed and with all unfolded, to axe-core. */
export async function checkLesson({ onPage }: OpenPages, page: string, colorScheme: 'light' | 'dark'): Promise<void> {
  // axe is a script, which the page's own policy forbids: it is let in here only.
  await onPage(page, { colorScheme, bypassCSP: true, reducedMotion: 'reduce' }, async (tab, address) => {
    await tab.goto(address);
    await says(tab, '#part-when [role=status]', /a good image takes/);
    await tab.evaluate("document.querySelectorAll('details').forEach((each) => each.setAttribute('open', ''))");
    await tab.evaluate(axe);
    expect(await tab.evaluate(VIOLATIONS)).toEqual([]);
  });
}
