import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { CHARTS } from '../../src/studies/compare/charts/index.js';
import { NARROW, WIDTH } from '../../src/report/charts/chart.js';
import { blocks, withoutClosed } from '../../src/report/charts/strips.js';
import { inPage, renderPicture } from '../../src/report/render.js';
import { largeSample, sampleComparison, singleSample, usualSample } from '../support/sample-summary.js';
import { nonEmpty, perhapsNone } from '../support/non-empty.js';

const path = createRequire(import.meta.url).resolve('vega-lite/vega-lite-schema.json');
const schema: unknown = JSON.parse(readFileSync(path, 'utf8'));
if (typeof schema !== 'object' || schema === null) throw new Error('no schema');
const validate = new Ajv({ strict: false, allErrors: false, validateFormats: false }).compile(schema);

const SAMPLES = [
  ['three strategies in office hours', usualSample().summary],
  ['one strategy, always booked', singleSample().summary],
  ['eight strategies and 3000 images', largeSample().summary],
  ['no variance at all', sampleComparison({ strategies: 2, images: 40, bookings: true, fixed: true }).summary],
  [
    'an experiment that never ends',
    sampleComparison({ strategies: 3, images: 40, bookings: false, endless: true }).summary,
  ],
] as const;

describe.each(SAMPLES)('charts of %s', (_, summary) => {
  it.each(CHARTS.flatMap((chart) => [WIDTH, NARROW].map((width) => [chart.id, width, chart] as const)))(
    '%s, %i pixels wide, follows the schema and compiles without warnings',
    async (id, width, chart) => {
      const spec = chart.drawing(summary)?.(width) ?? null;
      if (spec === null) {
        const isOneSession = summary.strategies.every(({ finishedBySession }) => finishedBySession.length < 2);
        expect({ differences: summary.strategies.length === 1, sessions: isOneSession, quality: true }).toHaveProperty(
          id,
          true,
        );
        return;
      }
      expect(validate(spec), JSON.stringify(validate.errors?.slice(0, 2))).toBe(true);
      const words = { prefix: id, title: chart.title, description: chart.alt(summary) };
      const first = await renderPicture(spec, words);
      expect(first.warnings).toEqual([]);
      expect(first.svg).not.toMatch(/NaN|undefined|Infinity/);
      expect(first.svg.length).toBeLessThan(600_000);
      expect((await renderPicture(spec, words)).svg).toBe(first.svg);
    },
  );

  it('have a caption, a text alternative and numbers for each', () => {
    for (const chart of CHARTS) {
      expect(chart.caption(summary)).toMatch(/\.$/);
      expect(chart.alt(summary)).toMatch(/\.$/);
      const table = chart.table(summary);
      expect(perhapsNone(table.rows).every((row) => row.length === table.columns.length)).toBe(true);
      expect(JSON.stringify([table, chart.caption(summary), chart.alt(summary)])).not.toMatch(/NaN|undefined|Infinity/);
    }
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
