import { survivalOf } from '../../../survival/fit-life.js';
import type { FitSummary } from '../../../study/fit/results.js';
import { lawName } from '../../../study/fit/words.js';
import { SCHEMA, type Chart } from '../../charts/chart.js';
import { chartConfig } from '../../charts/config.js';
import { NEUTRALS } from '../../palette.js';
import { listed } from '../../text.js';
import { causeTitle, intervalText, share, unitScale, valueText } from '../words.js';
import { lawLines } from './law-lines.js';
import {
  evenly,
  exposureTitle,
  leftOutText,
  panelSize,
  panelsOf,
  plainLawsText,
  sampled,
  stepsFrom,
} from './panels.js';

export const survival: Chart<FitSummary> = {
  id: 'survival',
  title: 'How many tips are left?',
  caption: (summary) =>
    'Share of tips not yet ended by this cause, the others censoring. The steps and their band are Kaplan and Meier’s with 95 % log-log intervals at each exposure, each event where it was noticed; the lines are the fitted laws' +
    (panelsOf(summary).some(({ fit }) => fit.turnbull !== null)
      ? ', and the dots Turnbull’s estimate from the intervals in which the events lie.'
      : '.') +
    plainLawsText(summary) +
    leftOutText(summary),
  alt: (summary) =>
    `A panel for each hazard. ${listed(
      panelsOf(summary).map(({ fit, title }) =>
        fit.median === null ? title : `${title}: half are ended by ${valueText(fit.median, unitScale(fit))}`,
      ),
    )}.`,
  spec: (summary) => {
    const panels = panelsOf(summary);
    if (panels.length === 0) return null;
    return {
      $schema: SCHEMA,
      config: { ...chartConfig(), concat: { spacing: 26 } },
      columns: 2,
      concat: panels.map(({ fit, title, end }) => {
        const steps = stepsFrom(fit.survival, 1, end);
        const x = {
          field: 'x',
          type: 'quantitative' as const,
          title: exposureTitle(fit),
          scale: { domain: [0, end], nice: false },
          axis: { grid: false, tickCount: 6 },
        };
        const y = {
          field: 'y',
          type: 'quantitative' as const,
          title: null,
          scale: { domain: [0, 1] },
          axis: { format: '.0%', tickCount: 5 },
        };
        const lines = lawLines(fit.laws, (law) => sampled(end, survivalOf(law)));
        return {
          title,
          ...panelSize(panels),
          layer: [
            {
              data: { values: steps },
              mark: { type: 'area' as const, interpolate: 'step-after' as const, color: NEUTRALS.faint.light },
              encoding: { x, y: { ...y, field: 'low' }, y2: { field: 'high' } },
            },
            {
              data: { values: steps },
              mark: {
                type: 'line' as const,
                interpolate: 'step-after' as const,
                color: NEUTRALS.ink.light,
                strokeWidth: 1.6,
              },
              encoding: { x, y },
            },
            ...(fit.turnbull === null
              ? []
              : [
                  {
                    data: { values: fit.turnbull.map(({ exposure, value }) => ({ x: exposure, y: value })) },
                    mark: { type: 'point' as const, filled: true, size: 16, color: NEUTRALS.soft.light, clip: true },
                    encoding: { x, y },
                  },
                ]),
            { ...lines, encoding: { ...lines.encoding, x, y } },
          ],
        };
      }),
    };
  },
  table: (summary) => ({
    columns: [
      { label: 'Hazard' },
      { label: 'Use', numeric: true },
      { label: 'Left', numeric: true },
      { label: 'Interval', numeric: true },
      { label: 'By the law taken', numeric: true },
    ],
    rows: panelsOf(summary).flatMap(({ fit }) => {
      const taken = fit.laws.find(({ law }) => law === fit.chosen?.law) ?? fit.laws[0];
      const curve = survivalOf(taken);
      return evenly(fit.survival).map(({ exposure, value, low, high }) => [
        causeTitle(fit),
        String(exposure),
        share(value),
        low === null || high === null ? '' : intervalText({ low: low * 100, high: high * 100 }),
        `${share(curve(exposure))} (${lawName(taken.law)})`,
      ]);
    }),
  }),
};
