import { expect, it } from 'vitest';
import type { Chart } from '../../src/report/charts/chart.js';
import { SCHEMA } from '../../src/report/charts/picture.js';
import { drawCharts } from '../../src/report/pictures.js';

interface Counted {
  readonly counts: readonly number[];
}

const bars: Chart<Counted> = {
  id: 'bars',
  title: 'Bars & more',
  caption: ({ counts }) => (counts.length === 0 ? 'There is nothing to <draw>.' : `${counts.length} counts.`),
  drawing: ({ counts }) =>
    counts.length === 0
      ? null
      : (width) => ({
          $schema: SCHEMA,
          width,
          data: { values: counts.map((count, place) => ({ place, count })) },
          mark: 'bar',
          encoding: { x: { field: 'place', type: 'ordinal' }, y: { field: 'count', type: 'quantitative' } },
        }),
  alt: () => 'counts as bars',
  table: ({ counts }) => ({ columns: [{ label: 'Count' }], rows: counts.map((count) => [String(count)]) }),
};

it('draws a chart as a specification, a picture, and a figure with its numbers in a table', async () => {
  const { files, figures } = await drawCharts([bars, { ...bars, id: 'again' }], { counts: [3, 41] });
  expect([...files.keys()]).toEqual([
    'charts/bars.vl.json',
    'charts/bars.svg',
    'charts/again.vl.json',
    'charts/again.svg',
  ]);
  expect(JSON.parse(files.get('charts/bars.vl.json') ?? '')).toMatchObject({ mark: 'bar' });
  expect(files.get('charts/bars.svg')).toContain('counts as bars');
  expect(figures[0]).toContain('<svg');
  expect(figures[0]).toContain('>41<');
  expect(figures[0]).toContain('Bars &amp; more');
});

it('leaves out a chart for which there is nothing to draw, with its caption, and writes no file', async () => {
  const { files, figures } = await drawCharts([bars], { counts: [] });
  expect(files.size).toBe(0);
  expect(figures).toEqual([]);
});
