import { describe, expect, it } from 'vitest';
import { renderPicture } from '../../../src/report/render.js';
import { tuneCharts, tuneReport } from '../../../src/studies/tune/report.js';
import { graphemes } from '../../../src/report/text.js';
import { SAMPLE_TUNINGS } from '../../support/sample-tunings.js';
import { textsOf } from '../../support/report-texts.js';
import { nonEmpty, perhapsNone } from '../../support/non-empty.js';
import { expectByRules } from '../../support/vega-lite.js';

const plain = (text: string) => text;
const styles = { strong: plain, quiet: plain, warning: plain };

describe.each(Object.entries(SAMPLE_TUNINGS))('tuning for %s', (name, tuning) => {
  const result = tuning();

  it('draws charts that follow the schema and compile without warnings, with a caption, an alternative and numbers', async () => {
    for (const chart of nonEmpty(tuneCharts(result))) {
      expect(chart.caption(result)).toMatch(/\.$/);
      expect(chart.alt(result)).toMatch(/\.$/);
      const table = chart.table(result);
      expect(perhapsNone(table.rows).every((row) => row.length === table.columns.length)).toBe(true);
      expect(JSON.stringify([table, chart.caption(result), chart.alt(result)])).not.toMatch(/NaN|undefined|Infinity/);
      const spec = chart.drawing(result)?.(928);
      if (spec === undefined) {
        expect([chart.id, result.winner]).toEqual(['losses', null]);
        continue;
      }
      expectByRules(spec);
      const { svg, warnings } = await renderPicture(spec, { prefix: chart.id, title: chart.title, description: '' });
      expect(warnings).toEqual([]);
      expect(svg).not.toMatch(/NaN|undefined|Infinity/);
    }
  });

  it('fits a terminal of any width, its answer first, at a glance on 25 lines of 100 columns', () => {
    for (const columns of [50, 80, 100, 200]) {
      const text = tuneReport.text(result, styles, columns);
      const lines = text.trimEnd().split('\n');
      expect(Math.max(...lines.map((line) => graphemes(line).length))).toBeLessThanOrEqual(Math.min(columns, 100));
      const answer = text.split('\n\n').at(1)?.replaceAll('\n', ' ');
      expect(answer?.startsWith(result.answer.headline[0].split(' ', 4).join(' '))).toBe(true);
    }
    expect(tuneReport.text(result, styles, 100).trimEnd().split('\n').length).toBeLessThanOrEqual(25);
  });

  it('writes a row for each setting into tune.csv, and the setting only where there is a winner', async () => {
    const files = await textsOf(tuneReport, result);
    const rows = files.get('tune.csv')?.trimEnd().split('\r\n') ?? [];
    const hasPresent = result.settings.some(({ isPresent }) => isPresent);
    expect(rows).toHaveLength(1 + result.settings.length + (hasPresent ? 0 : 1));
    expect(files.has('setting.yaml')).toBe(name !== 'no winner');
    expect((await textsOf(tuneReport, result)).get('report.html')).toBe(files.get('report.html'));
  });
});
