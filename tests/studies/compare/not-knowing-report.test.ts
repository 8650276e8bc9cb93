import { describe, expect, it } from 'vitest';
import { NOT_KNOWING_CHARTS } from '../../../src/studies/compare/charts/index.js';
import { renderPicture } from '../../../src/report/render.js';
import { terminalText } from '../../../src/studies/compare/terminal.js';
import { graphemes } from '../../../src/report/text.js';
import { reportTexts } from '../../support/report-texts.js';
import { sampleComparison, singleSample, usualSample } from '../../support/sample-summary.js';
import { withUnknown } from '../../support/sample-unknown.js';
import { nonEmpty } from '../../support/non-empty.js';
import { expectByRules } from '../../support/vega-lite.js';

const SAMPLES = [
  ['three strategies', usualSample()],
  ['one strategy', singleSample()],
  ['eight strategies', sampleComparison({ strategies: 8, images: 80, bookings: true, replications: 100 })],
] as const;

function knownOf(result: (typeof SAMPLES)[number][1]) {
  const { summary } = withUnknown(result);
  if (summary.parameterUncertainty === null) throw new Error('nothing is uncertain');
  return { ...summary, parameterUncertainty: summary.parameterUncertainty };
}

describe.each(SAMPLES)('the uncertainty of %s', (_, result) => {
  it.each(NOT_KNOWING_CHARTS)('is drawn by the rules, without a warning: $id', async (chart) => {
    const known = knownOf(result);
    const spec = chart.drawing(known)?.(928);
    if (spec === undefined) throw new Error('nothing drawn');
    expectByRules(spec);
    const words = { prefix: chart.id, title: chart.title, description: chart.alt(known) };
    const { svg, warnings } = await renderPicture(spec, words);
    expect(warnings).toEqual([]);
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
    const table = chart.table(known);
    expect(nonEmpty(table.rows).every((row) => row.length === table.columns.length)).toBe(true);
    expect(JSON.stringify([table, chart.caption(known), chart.alt(known)])).not.toMatch(/NaN|undefined|Infinity/);
  });

  it('has a section of the page and of the proposal, with what to measure first', async () => {
    const files = await reportTexts(withUnknown(result));
    expect(files.has('charts/parameter-uncertainty.svg')).toBe(true);
    const page = files.get('report.html') ?? '';
    expect(page).toContain('<h2 id="parameter-uncertainty">');
    const isChoice = result.summary.strategies.length > 1;
    expect(page).toContain(
      isChoice ? '<h3>What to measure first</h3>' : '<h3>What the variance of time is due to</h3>',
    );
    const methods = files.get('methods.md') ?? '';
    for (const text of [page, methods]) {
      expect(text).toContain('drawn 200 times');
      expect(text).toContain('Draws brought back to what the schema allows: 1 of “sharp: wear” and 2 of');
    }
    expect(page.includes('keeps its sign') || page.includes('>open<')).toBe(result.summary.differences.length > 0);
  });
});

describe('parameter uncertainty', () => {
  it('has no part in a report where the scenario says nothing of it', async () => {
    const files = await reportTexts(usualSample());
    const all = [...files.values()].join('\n');
    expect(all).not.toContain('parameter-uncertainty');
    expect(all).not.toContain('What to measure first');
  });

  it('is said in the terminal, no wider than it is', () => {
    for (const columns of [100, 60, 40]) {
      const text = terminalText(withUnknown(usualSample()).summary, undefined, columns, true);
      const own = text.slice(text.indexOf('Instrument time of one campaign')).split('\n\n')[0];
      expect(own.replace(/\s+/gu, ' ')).toContain('with parameter uncertainty');
      for (const line of nonEmpty(own.split('\n'))) expect(graphemes(line).length).toBeLessThanOrEqual(columns);
    }
  });

  it('says in the assumptions that a value is drawn, not tried at its ends', async () => {
    const { summary, replications } = withUnknown(usualSample());
    const assumptions = summary.assumptions.map((entry, i) =>
      i === 0
        ? { ...entry, path: 'tips.sharp.hazards.0.life.mean', range: 'known within 8 to 24', reversals: null }
        : entry,
    );
    const files = await reportTexts({ summary: { ...summary, assumptions }, replications });
    expect(files.get('report.html')).toContain('drawn from its distribution, not tried at range limits');
  });

  it('is shown safely, whatever it is called', async () => {
    const hostile = '</td><script>alert(1)</script>" onload="x" | `|`';
    const sample = sampleComparison({ strategies: 2, images: 8, bookings: false, hostile });
    const files = await reportTexts(withUnknown(sample, hostile));
    for (const name of ['report.html', 'charts/parameter-uncertainty.svg'])
      expect(files.get(name)).not.toMatch(/<script|<\/td><s|" onload="/u);
  });
});
