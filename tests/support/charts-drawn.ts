import { CHARTS } from '../../src/studies/compare/charts/index.js';
import type { Summary } from '../../src/analysis/results.js';
import { NARROW, WIDTH } from '../../src/report/charts/chart.js';
import { renderPicture } from '../../src/report/render.js';
import { expect } from 'vitest';
import { perhapsNone } from './non-empty.js';
import { expectByRules } from './vega-lite.js';

type Chart = (typeof CHARTS)[number];

/** Every chart of a comparison, wide and narrow. */
export const DRAWN = CHARTS.flatMap((chart) => [WIDTH, NARROW].map((width) => [chart.id, width, chart] as const));

/** Draws a chart twice, by the rules and without a warning; one that a comparison has not is no drawing. */
export async function expectDrawn(summary: Summary, chart: Chart, width: number): Promise<void> {
  const spec = chart.drawing(summary)?.(width) ?? null;
  if (spec === null) {
    const isOneSession = summary.strategies.every(({ finishedBySession }) => finishedBySession.length < 2);
    expect({ differences: summary.strategies.length === 1, sessions: isOneSession, quality: true }).toHaveProperty(
      chart.id,
      true,
    );
    return;
  }
  expectByRules(spec);
  const words = { prefix: chart.id, title: chart.title, description: chart.alt(summary) };
  const first = await renderPicture(spec, words);
  expect(first.warnings).toEqual([]);
  expect(first.svg).not.toMatch(/NaN|undefined|Infinity/);
  expect(first.svg.length).toBeLessThan(600_000);
  expect((await renderPicture(spec, words)).svg).toBe(first.svg);
}

/** Each chart has a caption, a text alternative and numbers. */
export function expectTold(summary: Summary): void {
  for (const chart of CHARTS) {
    expect(chart.caption(summary)).toMatch(/\.$/);
    expect(chart.alt(summary)).toMatch(/\.$/);
    const table = chart.table(summary);
    expect(perhapsNone(table.rows).every((row) => row.length === table.columns.length)).toBe(true);
    expect(JSON.stringify([table, chart.caption(summary), chart.alt(summary)])).not.toMatch(/NaN|undefined|Infinity/);
  }
}
