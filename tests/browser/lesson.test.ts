import { describe, expect, it } from 'vitest';
import { openPages } from '../support/page-checks.js';
import { answerIn, checkLesson, lessonOf, listenTo, says } from '../support/lesson.js';

const pages = openPages(async () => ({ lesson: await lessonOf() }));
const { onPage } = pages;

describe('the lesson in Chromium', () => {
  it('is one file of less than 900 kB, with its own script and style let in by their hashes and no eval', async () => {
    const page = await lessonOf();
    expect(page.length).toBeLessThan(900_000);
    const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(page)?.[1] ?? '';
    expect(policy).toMatch(
      /^default-src 'none'; script-src 'sha256-[^']{44}'; worker-src blob:; style-src 'sha256-[^']{44}';/,
    );
    expect(policy).not.toContain('unsafe');
  });

  it('computes every part without a word in the console or a request', async () => {
    await onPage('lesson', { viewport: { width: 1280, height: 900 } }, async (tab, address) => {
      const { said, asked } = listenTo(tab);
      await tab.goto(address);
      await says(tab, '#part-rushing [role=status]', /all images take/);
      await says(tab, '#part-waiting .said', /a good image takes/);
      await says(tab, '#part-ways [role=status]', /Over 600 campaigns/);
      await says(tab, '#part-when [role=status]', /a good image takes/);
      expect(said).toEqual([]);
      expect(asked.filter((each) => !each.startsWith('blob:'))).toEqual([address]);
    });
  });

  it('has targets of 44 pixels and does not scroll sideways, from a telephone to a wall', async () => {
    await onPage('lesson', { hasTouch: true }, async (tab, address) => {
      await tab.goto(address);
      for (const width of [360, 1440, 3840]) {
        await tab.setViewportSize({ width, height: 800 });
        // Charts are drawn anew a moment after the page has another width.
        await expect
          .poll(() => tab.evaluate<number>('document.documentElement.scrollWidth'), { timeout: 10_000 })
          .toBeLessThanOrEqual(width);
        const low = await tab.evaluate<string[]>(
          "[...document.querySelectorAll('.lesson :is(button, select, input[type=range], input[type=number], .choice)')].filter((each) => each.offsetParent !== null && each.getBoundingClientRect().height < 44).map((each) => each.outerHTML)",
        );
        expect(low).toEqual([]);
      }
    });
  });

  it('answers handsQuestion by running it, once an answer was chosen', async () => {
    await onPage('lesson', {}, async (tab, address) => {
      await tab.goto(address);
      await answerIn(
        tab,
        'handsQuestion',
        'Longer',
        /^(Right\.|Computed: (Shorter|No clear difference)\.) Over 400 campaigns/,
      );
    });
  });

  it('has no violation that axe-core knows, in light', async () => {
    await checkLesson(pages, 'lesson', 'light');
  });
});
