import { hazardOf } from '../../../survival/fit-life.js';
import type { CauseFit, FitSummary } from '../../../study/fit/results.js';
import { SCHEMA, type Chart } from '../../charts/chart.js';
import { chartConfig } from '../../charts/config.js';
import { numberText } from '../../format.js';
import { causeTitle } from '../words.js';
import { lawLines } from './law-lines.js';
import { exposureTitle, leftOutText, panelSize, panelsOf, plainLawsText, sampled } from './panels.js';

/** A hazard that has no bound at zero is drawn up to so many times that at mid-life. */
const HIGHEST = 4;

function trend(fit: CauseFit, end: number): string {
  const taken = fit.laws.find(({ law }) => law === fit.chosen?.law) ?? fit.laws[0];
  const rate = hazardOf(taken);
  const [early, late] = [rate(end * 0.15), rate(end * 0.85)];
  const change =
    late > early * 1.1 ? 'grows with use' : late < early / 1.1 ? 'falls with use' : 'hardly changes with use';
  return `the hazard of ${causeTitle(fit)} ${change}`;
}

export const hazard: Chart<FitSummary> = {
  id: 'hazard',
  title: 'How does the danger change with use?',
  caption: (summary) =>
    'Hazard of the fitted laws: chance per unit of use that a tip which has come so far is ended by this cause next. Where it grows, replacing in time may pay; where it is level or falls, a new tip is no safer than the old one.' +
    plainLawsText(summary) +
    leftOutText(summary),
  alt: (summary) =>
    `A panel for each hazard; ${panelsOf(summary)
      .map(({ fit, end }) => trend(fit, end))
      .join('; ')}.`,
  spec: (summary) => {
    const panels = panelsOf(summary);
    if (panels.length === 0) return null;
    return {
      $schema: SCHEMA,
      config: { ...chartConfig(), concat: { spacing: 26 } },
      columns: 2,
      concat: panels.map(({ fit, title, end }) => {
        const middle = Math.max(...fit.laws.map((law) => hazardOf(law)(end / 2)));
        const top = Math.max(...fit.laws.flatMap((law) => sampled(end, hazardOf(law), end / 200).map(({ y }) => y)));
        const highest = Math.min(top, HIGHEST * middle) * 1.05;
        const lines = lawLines(fit.laws, (law) =>
          sampled(end, hazardOf(law), end / 200).filter(({ y }) => y <= highest),
        );
        return {
          title,
          ...panelSize(panels),
          layer: [
            {
              ...lines,
              encoding: {
                ...lines.encoding,
                x: {
                  field: 'x',
                  type: 'quantitative' as const,
                  title: exposureTitle(fit),
                  scale: { domain: [0, end], nice: false },
                  axis: { grid: false, tickCount: 6 },
                },
                y: {
                  field: 'y',
                  type: 'quantitative' as const,
                  title: `Hazard per ${fit.per === 'distance' ? 'mm' : fit.per}`,
                  scale: { domain: [0, highest], nice: false },
                  axis: { tickCount: 5, format: '~g' },
                },
              },
            },
          ],
        };
      }),
    };
  },
  table: (summary) => ({
    columns: [
      { label: 'Hazard' },
      { label: 'Use', numeric: true },
      { label: 'Hazard per unit, law taken', numeric: true },
    ],
    rows: panelsOf(summary).flatMap(({ fit, end }) => {
      const taken = fit.laws.find(({ law }) => law === fit.chosen?.law) ?? fit.laws[0];
      return [0.1, 0.25, 0.5, 0.75, 1].map((part) => [
        causeTitle(fit),
        numberText(end * part),
        numberText(hazardOf(taken)(end * part)),
      ]);
    }),
  }),
};
