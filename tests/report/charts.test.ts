import { describe, expect, it } from 'vitest';
import { CHARTS } from '../../src/studies/compare/charts/index.js';
import { WIDTH } from '../../src/report/charts/chart.js';
import { blocks, withoutClosed } from '../../src/report/charts/strips.js';
import { inPage, renderPicture } from '../../src/report/render.js';
import { singleSample, usualSample } from '../support/sample-summary.js';
import { nonEmpty } from '../support/non-empty.js';
import { DRAWN, expectDrawn, expectTold } from '../support/charts-drawn.js';

const SAMPLES = [
  ['three strategies in office hours', usualSample().summary],
  ['one strategy, always booked', singleSample().summary],
] as const;

describe.each(SAMPLES)('charts of %s', (_, summary) => {
  it.each(DRAWN)('%s, %i pixels wide, follows the schema and compiles without warnings', async (_id, width, chart) => {
    await expectDrawn(summary, chart, width);
  });

  it('have a caption, a text alternative and numbers for each', () => {
    expectTold(summary);
  });
});

it('a picture speaks as one image: a title, a description, no roles inside, ids of its own', async () => {
  const { summary } = usualSample();
  const [chart] = CHARTS;
  const spec = chart.drawing(summary)?.(WIDTH);
  if (spec === undefined) throw new Error('nothing drawn');
  const { svg } = await renderPicture(spec, { prefix: 'p', title: 'A <b> title', description: 'What & why' });
  expect(svg).toMatch(/^<svg [^>]*role="img" aria-labelledby="p-title p-desc">/);
  expect(svg).toContain('<title id="p-title">A &lt;b&gt; title</title><desc id="p-desc">What &amp; why</desc>');
  expect(svg.match(/ role="/g)).toHaveLength(1);
  for (const [, id] of nonEmpty(svg.matchAll(/ id="([^"]*)"/g))) expect(id).toMatch(/^p-/);
  expect(svg).not.toContain('var(--');
  const inside = inPage(svg);
  expect(inside).toContain('var(--ink)');
  expect(inside).toContain('var(--strategy-1)');
  expect(inside).not.toMatch(/(?:fill|stroke)="#[0-9a-f]{6}"/);
});

describe('stretches of time', () => {
  const night = [{ start: 10, end: 30, what: 'closed' }];

  it('close up over a night', () => {
    const { stretches, cuts } = withoutClosed(
      [
        { start: 0, end: 10, what: 'a' },
        { start: 30, end: 34, what: 'b' },
      ],
      night,
    );
    expect(stretches).toEqual([
      { start: 0, end: 10, what: 'a' },
      { start: 10, end: 14, what: 'b' },
    ]);
    expect(cuts).toEqual([10]);
  });

  it('over a night shrink by it', () => {
    expect(withoutClosed([{ start: 5, end: 40, what: 'tip' }], night).stretches).toEqual([
      { start: 5, end: 20, what: 'tip' },
    ]);
  });

  it('too many to draw become shares that fill their column', () => {
    const many = Array.from({ length: 1000 }, (_, at) => ({
      start: at,
      end: at + 1,
      what: at % 4 === 0 ? 'lost' : 'kept',
    }));
    const drawn = blocks(
      many,
      1000,
      60,
      (a, b) => a === b,
      (a, b) => a.localeCompare(b),
    );
    expect(drawn.length).toBeLessThanOrEqual(60);
    for (const block of nonEmpty(drawn)) {
      expect(block.to - block.from).toBeCloseTo(block.what === 'lost' ? 0.25 : 0.75, 1);
    }
  });
});
