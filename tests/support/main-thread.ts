import type { Page } from 'playwright-core';
import { z } from 'zod';

const event = z.looseObject({
  name: z.string(),
  ph: z.string(),
  pid: z.number(),
  tid: z.number(),
  tdur: z.number().optional(),
  args: z.looseObject({ name: z.string().optional() }).optional(),
});
const trace = z.object({ traceEvents: z.array(event) });

/**
 * The longest task (milliseconds) of a page's main thread while something is done in it. Counted is the processor's time,
 * as Chromium traces it: on a busy machine the clock on the wall also runs while other processes have the processor.
 */
export async function longestTask(tab: Page, work: () => Promise<void>): Promise<number> {
  const browser = tab.context().browser();
  if (browser === null) throw new Error('The page is in no browser.');
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
    .map(({ tdur }) => (tdur ?? 0) / 1000);
  if (tasks.length === 0) throw new Error('The trace holds no task of the main thread.');
  return tasks.reduce((longest, each) => Math.max(longest, each), 0);
}
