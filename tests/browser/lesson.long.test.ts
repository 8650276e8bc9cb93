import { describe, expect, it } from 'vitest';
import { answerIn, checkLesson, lessonOf, says } from '../support/lesson.js';
import { longestTask } from '../support/main-thread.js';
import { nonEmpty } from '../support/non-empty.js';
import { openPages } from '../support/page-checks.js';

const pages = openPages(async () => ({ lesson: await lessonOf() }));
const { onPage } = pages;

describe('the lesson in Chromium', () => {
  // A machine that shares its processor stretches its time too, now and then; what is long by itself is long every time.
  it(
    'stays responsive while it computes: no task of the page takes over 100 ms of its processor',
    { retry: 3 },
    async () => {
      await onPage('lesson', { viewport: { width: 1280, height: 900 } }, async (tab, address) => {
        await tab.goto(address);
        const longest = await longestTask(tab, async () => {
          const pace = tab.getByRole('slider', { name: 'Pace of scanning' });
          for (const value of ['1.5', '2', '2.5']) await pace.fill(value);
          await says(tab, '#part-rushing [role=status]', /At 2\.5 × the usual pace/);
          await says(tab, '#part-when [role=status]', /a good image takes/);
        });
        expect(longest).toBeGreaterThan(0);
        expect(longest).toBeLessThanOrEqual(100);
      });
    },
  );

  it('follows a slider moved by keyboard, and says the value and what it does', async () => {
    await onPage('lesson', {}, async (tab, address) => {
      await tab.goto(address);
      const pace = tab.getByRole('slider', { name: 'Pace of scanning' });
      await pace.focus();
      for (let press = 0; press < 30; press += 1) await tab.keyboard.press('ArrowRight');
      expect(await pace.getAttribute('aria-valuetext')).toBe('2.5 × the usual pace');
      const text = await says(tab, '#part-rushing [role=status]', /At 2\.5 × the usual pace/);
      expect(text).toMatch(/more than at the usual pace/);
      expect(new URL(tab.url()).hash).toBe('#rushing-scan=2.5');
      expect(await tab.locator('#part-rushing figure [role=img] canvas').count()).toBe(6);
    });
  });

  it('draws the image as drift distorts it: less, the longer one waits, by keyboard too', async () => {
    await onPage('lesson', {}, async (tab, address) => {
      await tab.goto(address);
      const caption = '#part-waiting figcaption [role=status]';
      const displaced = async (wait: RegExp) =>
        Number(/displaced by ([\d.]+) nm/u.exec(await says(tab, caption, wait))?.[1]);
      const wait = tab.getByRole('slider', { name: 'Settling after each change' });
      await wait.focus();
      const soon = await displaced(/after 3 min of settling/u);
      for (let press = 0; press < 9; press += 1) await tab.keyboard.press('ArrowRight');
      expect(await wait.getAttribute('aria-valuetext')).toBe('12 min');
      const late = await displaced(/after 12 min of settling/u);
      expect(late).toBeGreaterThan(0);
      expect(late).toBeLessThan(soon / 2);
      const text = await says(tab, '#part-waiting .take', /The optimum lies inside the range, at about \d+ min/u);
      expect(text).toContain('no tip is to blame');
    });
  });

  it('opens from a link as it was when the link was made', async () => {
    await onPage('lesson', {}, async (tab, address) => {
      await tab.goto(`${address}#rushing-hands=2&ways-campaign=7&when-after=4&rushing-scan=99&nonsense=1`);
      expect(await tab.getByRole('slider', { name: 'Pace of hands' }).inputValue()).toBe('2');
      expect(await tab.getByRole('slider', { name: 'Pace of scanning' }).inputValue()).toBe('3');
      expect(await tab.getByRole('slider', { name: 'A tip is replaced after' }).inputValue()).toBe('4');
      await says(tab, '#part-ways [role=status]', /^Campaign 7:/);
    });
  });

  it('shows an optimum inside the range of each pace that it offers', async () => {
    await onPage('lesson', {}, async (tab, address) => {
      await tab.goto(address);
      const text = await says(tab, '#part-rushing .take', /inside the range.*inside the range/u);
      expect(text.match(/The optimum lies inside the range, at about/gu)).toHaveLength(2);
    });
  });

  it.each([
    ['preparationQuestion', 'Hop', /^(Right\.|Computed: (Swap|No clear difference)\.) Over 400 campaigns/],
    ['waitQuestion', 'Longer', /^(Right\.|Computed: (Shorter|As long)\.) Of the waits/],
    ['ageQuestion', 'After fewer images', /^(Right\.|Computed: After (as many|more) images\.) Of the ages/],
  ])('answers %s by running it, once an answer was chosen', async (question, answer, verdict) => {
    await onPage('lesson', {}, async (tab, address) => {
      await tab.goto(address);
      await answerIn(tab, question, answer, verdict);
    });
  });

  it.each([390, 1280])('shows every picture over the whole of its place, %i pixels wide', async (width) => {
    await onPage('lesson', { viewport: { width, height: 900 } }, async (tab, address) => {
      await tab.goto(address);
      await says(tab, '#part-ways [role=status]', /Over 600 campaigns/);
      const shares = await tab.evaluate<number[]>(
        "[...document.querySelectorAll('.plot canvas, .timelines .activities')].filter((each) => each.checkVisibility()).map((each) => each.getBoundingClientRect().width / Math.min(960, each.closest('figure').clientWidth))",
      );
      // Three curves of each pace, four of waiting, three of when to hop, and two rows of activities.
      expect(shares).toHaveLength(15);
      for (const share of nonEmpty(shares)) expect(share).toBeGreaterThan(0.8);
    });
  });

  it('has no violation that axe-core knows, in dark', async () => {
    await checkLesson(pages, 'lesson', 'dark');
  });
});
