import { ln, pow } from '../../../chance/elementary.js';
import { survivalOf } from '../../../survival/fit-life.js';
import type { CauseFit, FitSummary } from '../../../study/fit/results.js';
import { SCHEMA, type Chart } from '../../charts/chart.js';
import { chartConfig } from '../../charts/config.js';
import { NEUTRALS } from '../../palette.js';
import { causeTitle, goodnessText, share } from '../words.js';
import { lawLines } from './law-lines.js';
import { evenly, exposureTitle, leftOutText, panelSize, panelsOf, plainLawsText } from './panels.js';

/** Shares of failed tips that the upright axis names. */
const SHARES = [0.001, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.4, 0.632, 0.9, 0.99, 0.999];

/** Height of a share of failed tips on Weibull paper. */
function height(failed: number): number {
  return ln(-ln(1 - failed));
}

interface Point {
  readonly exposure: number;
  /** Share failed: the middle of the step there. */
  readonly failed: number;
}

/** A point for each event, at half of its step (J. F. Lawless, Statistical Models and Methods for Lifetime Data, 2nd ed. 2003, section 3.3). */
function pointsOf({ survival }: CauseFit): readonly Point[] {
  return survival.flatMap(({ exposure, value }, place) => {
    const before = place === 0 ? 1 : survival[place - 1].value;
    const failed = 1 - (before + value) / 2;
    return before > value && exposure > 0 ? [{ exposure, failed }] : [];
  });
}

export const probability: Chart<FitSummary> = {
  id: 'probability',
  title: 'Does the law go with the lives?',
  caption: (summary) =>
    'A point for each use at which an event was noticed, on Weibull paper: use on a log scale, and the share ended so that a Weibull law is straight (an exponential one too, with slope 1). A law is good where its line runs through the points; a bend at the lower left says that early events are of another kind.' +
    plainLawsText(summary) +
    leftOutText(summary),
  alt: (summary) =>
    `A probability plot for each hazard; ${panelsOf(summary)
      .map(({ fit, title }) => `${title}: ${goodnessText(fit)}`)
      .join('; ')}.`,
  spec: (summary) => {
    const panels = panelsOf(summary);
    if (panels.length === 0) return null;
    return {
      $schema: SCHEMA,
      config: { ...chartConfig(), concat: { spacing: 26 } },
      columns: 2,
      concat: panels.map(({ fit, title, end }) => {
        const points = pointsOf(fit);
        const first = Math.min(end / 4, ...points.map(({ exposure }) => exposure)) * 0.8;
        const shares = points.map(({ failed }) => failed);
        const [low, high] = [
          height(Math.min(0.05, ...shares) * 0.7),
          height(Math.max(0.632, 1 - (1 - Math.max(...shares)) * 0.6)),
        ];
        const marks = SHARES.filter((each) => height(each) >= low && height(each) <= high);
        const x = {
          field: 'x',
          type: 'quantitative' as const,
          title: exposureTitle(fit),
          scale: { type: 'log' as const, domain: [first, end * 1.05], nice: false },
          axis: { grid: false, tickCount: 5, format: '~g' },
        };
        const y = {
          field: 'y',
          type: 'quantitative' as const,
          title: null,
          scale: { domain: [low, high], nice: false, zero: false },
          axis: { values: marks.map(height), labelExpr: "format(1 - exp(-exp(datum.value)), '.1~%')" },
        };
        const lines = lawLines(fit.laws, (law) => {
          const left = survivalOf(law);
          const STEPS = 60;
          return Array.from({ length: STEPS + 1 }, (_, place) => first * pow(end / first, place / STEPS))
            .map((exposure) => ({ x: exposure, y: height(1 - left(exposure)) }))
            .filter((point) => Number.isFinite(point.y) && point.y >= low - 3);
        });
        return {
          title,
          ...panelSize(panels),
          layer: [
            { ...lines, encoding: { ...lines.encoding, x, y } },
            {
              data: { values: points.map(({ exposure, failed }) => ({ x: exposure, y: height(failed) })) },
              mark: { type: 'point' as const, filled: true, size: 34, color: NEUTRALS.ink.light, opacity: 1 },
              encoding: { x, y },
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
      { label: 'Share ended', numeric: true },
      { label: 'By the law taken', numeric: true },
    ],
    rows: panelsOf(summary).flatMap(({ fit }) => {
      const taken = fit.laws.find(({ law }) => law === fit.chosen?.law) ?? fit.laws[0];
      const left = survivalOf(taken);
      return evenly(pointsOf(fit)).map(({ exposure, failed }) => [
        causeTitle(fit),
        String(exposure),
        share(failed),
        share(1 - left(exposure)),
      ]);
    }),
  }),
};
