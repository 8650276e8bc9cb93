import type { Page } from 'playwright-core';
import { z } from 'zod';

const event = z.looseObject({
  name: z.string(),
  ph: z.string(),
  pid: z.number(),
  tid: z.number(),
  dur: z.number().optional(),
  tdur: z.number().optional(),
  args: z.looseObject({ name: z.string().optional() }).optional(),
});
const trace = z.object({ traceEvents: z.array(event) });

/** What the piece of work of `slowness` takes on the machine on which limits of time are meant, in milliseconds. */
const REFERENCE = 12;

/** By how much this machine is slower now than the one on which limits are meant: 1 for one that is as fast, or faster. */
export async function slowness(tab: Page): Promise<number> {
  const taken = await tab.evaluate(() => {
    const thing = Array.from({ length: 20_000 }, (_, k) => ({ name: `image ${k}`, minutes: k / 7 }));
    const once = () => {
      const from = performance.now();
      JSON.parse(JSON.stringify(thing));
      return performance.now() - from;
    };
    return Array.from({ length: 9 }, once).sort((a, b) => a - b);
  });
  return Math.max(1, (taken[4] ?? 0) / REFERENCE);
}

/**
 * The longest task (milliseconds) of a page's main thread while something is done in it, on a machine of the speed for
 * which limits are meant. Counted is the processor's time, as Chromium traces it: on a busy machine the clock on the wall
 * also runs while other processes have the processor. Where the thread's own clock is coarse it can say more than the
 * wall's; then the wall's is right.
 */
export async function longestTask(tab: Page, work: () => Promise<void>): Promise<number> {
  const browser = tab.context().browser();
  if (browser === null) throw new Error('The page is in no browser.');
  const before = await slowness(tab);
  await browser.startTracing(tab, {
    categories: ['toplevel', 'devtools.timeline', 'disabled-by-default-devtools.timeline'],
  });
  await work();
  const { traceEvents } = trace.parse(JSON.parse((await browser.stopTracing()).toString('utf8')));
  const mains = new Set(
    traceEvents
      .filter(({ name, args }) => name === 'thread_name' && args?.name === 'CrRendererMain')
      .map(({ pid, tid }) => `${pid} ${tid}`),
  );
  const tasks = traceEvents
    .filter(({ name, ph, pid, tid }) => ph === 'X' && name.endsWith('RunTask') && mains.has(`${pid} ${tid}`))
    .map(({ dur, tdur }) => Math.min(dur ?? 0, tdur ?? 0) / 1000);
  if (tasks.length === 0) throw new Error('The trace holds no task of the main thread.');
  return tasks.reduce((longest, each) => Math.max(longest, each), 0) / Math.max(before, await slowness(tab));
}
