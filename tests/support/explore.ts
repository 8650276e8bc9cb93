import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { compare } from '../../src/studies/compare/compare.js';
import { swapOrHop } from './command.js';
import { slowness } from './main-thread.js';
import { loadedOf } from './run.js';

/** The page that the command writes for a scenario's text; for null the one that begins with questions. */
export async function exploreOf(text: string | null, name = 'scenario.yaml'): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'explore-'));
  try {
    const [file, out] = [join(folder, name), join(folder, 'explore.html')];
    if (text !== null) writeFileSync(file, text);
    const outcome = await swapOrHop(['explore', ...(text === null ? [] : [file]), '--out', out]);
    expect(outcome).toMatchObject({ code: 0, stdout: '' });
    return readFileSync(out, 'utf8');
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Keeps every message of the page's worker, and how long the page took to answer to what a person did. */
const RECORDING = `
window.heard = [];
window.Worker = class extends window.Worker {
  constructor(address) {
    super(address);
    this.addEventListener('message', ({ data }) => window.heard.push({ ...data, at: performance.now() }));
  }
};
window.paints = [];
new PerformanceObserver((list) => {
  for (const each of list.getEntries()) if (each.interactionId > 0) window.paints.push(each.duration);
}).observe({ type: 'event', durationThreshold: 16, buffered: true });`;

/** Has the page keep what its worker says; before it is opened. */
export async function record(tab: Page): Promise<void> {
  await tab.addInitScript(RECORDING);
}

/** Waits for the complete answer of so many replications to the setting asked for last, and gives it as it was posted. */
export async function wholeAnswer(tab: Page, replications: number): Promise<unknown> {
  const found = `window.heard.findLast((each) => each.kind === 'answer' && each.answer.isTried && each.answer.summary.replications === ${replications}
    && each.version === Math.max(...window.heard.map((one) => one.version)))?.answer ?? null`;
  // The page's own policy lets no text be run that polls in it.
  for (let tries = 0; tries < 600; tries += 1) {
    const answer = await tab.evaluate<unknown>(found);
    if (answer !== null) return answer;
    await tab.waitForTimeout(200);
  }
  throw new Error('no whole answer came');
}

/** What `compare` finds, as far as the page shows it. */
function compared(text: string, replications: number): object {
  const { summary } = compare(loadedOf(text), { file: 'scenario.yaml', sha256: '', toolVersion: '', replications });
  const { strategies, differences, verdict, assumptions, parameterUncertainty } = summary;
  return {
    ...{ replications, differences, verdict, assumptions, parameterUncertainty },
    strategies: strategies.map((strategy) => ({ ...strategy, images: [] })),
  };
}

/** Has the page run so many replications, and holds what its worker posts to `compare`. */
export async function holdToCompare(tab: Page, address: string, text: string, replications: number): Promise<void> {
  await record(tab);
  await tab.goto(address);
  await tab.getByLabel('Replications').fill(String(replications));
  await tab.getByLabel('Replications').press('Enter');
  const answer = await wholeAnswer(tab, replications);
  expect(answer).toMatchObject({ isTried: true, summary: compared(text, replications) });
}

/**
 * The longest that the page took to show what came of something done, in milliseconds (in steps of 8), on a machine of the
 * speed for which limits are meant.
 */
export async function longestPaint(tab: Page): Promise<number> {
  return (await tab.evaluate<number>('Math.max(0, ...window.paints)')) / (await slowness(tab));
}

/** Drops a file on the page. */
export async function dropFile(tab: Page, name: string, text: string): Promise<void> {
  const data = await tab.evaluateHandle(
    `(() => { const data = new DataTransfer(); data.items.add(new File([${JSON.stringify(text)}], ${JSON.stringify(name)})); return data; })()`,
  );
  await tab.dispatchEvent('body', 'drop', { dataTransfer: data });
}
