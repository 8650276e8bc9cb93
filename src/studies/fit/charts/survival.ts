import { survivalOf } from '../../../survival/fit-life.js';
import type { FitSummary } from '../results.js';
import { distributionName } from '../words.js';
import { NEUTRALS } from '../../../report/palette.js';
import { listed } from '../../../wording/phrases.js';
import { causeTitle, intervalText, share, unitScale, valueText } from '../report-words.js';
import {
  evenly,
  exposureTitle,
  distributionLines,
  distributionPicture,
  leftOutText,
  panelsOf,
  plainDistributionsText,
  takenDistribution,
  sampled,
  stepsFrom,
} from './panels.js';
import { PERCENT } from '../../../report/charts/axes.js';
import type { Chart } from '../../../report/charts/chart.js';
import { band, dots, joined } from '../../../report/charts/marks.js';

export const survival: Chart<FitSummary> = {
  id: 'survival',
  title: 'How many tips are left?',
  caption: (summary) =>
    'Share of tips not yet ended by this cause, the others censoring. The steps and their band are Kaplan and Meier’s with 95 % log-log intervals at each exposure, each event where it was noticed; the lines are the fitted distributions' +
    (panelsOf(summary).some(({ fit }) => fit.turnbull !== null)
      ? ', and the dots Turnbull’s estimate from the intervals in which the events lie.'
      : '.') +
    plainDistributionsText(summary) +
    leftOutText(summary),
  alt: (summary) =>
    `A panel for each hazard. ${listed(
      panelsOf(summary).map(({ fit, title }) =>
        fit.median === null ? title : `${title}: half are ended by ${valueText(fit.median, unitScale(fit))}`,
      ),
    )}.`,
  drawing: (summary) =>
    distributionPicture(summary, ({ fit, end }) => {
      const steps = stepsFrom(fit.survival, 1, end);
      return {
        x: { title: exposureTitle(fit), domain: [0, end] },
        y: { title: null, domain: [0, 1], format: PERCENT },
        marks: [
          band(steps, { tone: NEUTRALS.faint, isStepped: true, opacity: 1 }),
          joined(steps, { tone: NEUTRALS.ink, isStepped: true, width: 1.6 }),
          dots(
            (fit.turnbull ?? []).map(({ exposure, value }) => ({ x: exposure, y: value })),
            { size: 16, tone: NEUTRALS.soft, isClipped: true },
          ),
          distributionLines(fit.distributions, (distribution) => sampled(end, survivalOf(distribution))),
        ],
      };
    }),
  table: (summary) => ({
    columns: [
      { label: 'Hazard' },
      { label: 'Use', numeric: true },
      { label: 'Left', numeric: true },
      { label: 'Interval', numeric: true },
      { label: 'By the distribution taken', numeric: true },
    ],
    rows: panelsOf(summary).flatMap(({ fit }) => {
      const taken = takenDistribution(fit);
      const curve = survivalOf(taken);
      return evenly(fit.survival).map(({ exposure, value, low, high }) => [
        causeTitle(fit),
        String(exposure),
        share(value),
        low === null || high === null ? '' : intervalText({ low: low * 100, high: high * 100 }),
        `${share(curve(exposure))} (${distributionName(taken.distribution)})`,
      ]);
    }),
  }),
};
