import { numberText } from '../../../wording/numbers.js';
import { hazardOf } from '../../../survival/fit-life.js';
import type { CauseFit, FitSummary } from '../results.js';
import { causeTitle } from '../report-words.js';
import {
  exposureTitle,
  distributionLines,
  distributionPicture,
  leftOutText,
  panelsOf,
  plainDistributionsText,
  takenDistribution,
  sampled,
} from './panels.js';
import type { Chart } from '../../../report/charts/chart.js';

/** A hazard that has no bound at zero is drawn up to so many times that at mid-life. */
const HIGHEST = 4;

function trend(fit: CauseFit, end: number): string {
  const taken = takenDistribution(fit);
  const rate = hazardOf(taken);
  const [early, late] = [rate(end * 0.15), rate(end * 0.85)];
  const change =
    late > early * 1.1 ? 'grows with use' : late < early / 1.1 ? 'falls with use' : 'hardly changes with use';
  return `the hazard of ${causeTitle(fit)} ${change}`;
}

export const hazard: Chart<FitSummary> = {
  id: 'hazard',
  title: 'Hazard rate with use',
  caption: (summary) =>
    'Hazard of the fitted distributions: chance per unit of use that a tip which has come so far is ended by this cause next. Where it grows, replacing in time may pay; where it is level or falls, a new tip is no safer than the old one.' +
    plainDistributionsText(summary) +
    leftOutText(summary),
  alt: (summary) =>
    `A panel for each hazard; ${panelsOf(summary)
      .map(({ fit, end }) => trend(fit, end))
      .join('; ')}.`,
  drawing: (summary) =>
    distributionPicture(summary, ({ fit, end }) => {
      const middle = Math.max(...fit.distributions.map((distribution) => hazardOf(distribution)(end / 2)));
      const top = Math.max(
        ...fit.distributions.flatMap((distribution) =>
          sampled(end, hazardOf(distribution), end / 200).map(({ y }) => y),
        ),
      );
      const highest = Math.min(top, HIGHEST * middle) * 1.05;
      return {
        x: { title: exposureTitle(fit), domain: [0, end] },
        y: { title: `Hazard per ${fit.per === 'distance' ? 'mm' : fit.per}`, domain: [0, highest], format: '~g' },
        marks: [
          distributionLines(fit.distributions, (distribution) =>
            sampled(end, hazardOf(distribution), end / 200).filter(({ y }) => y <= highest),
          ),
        ],
      };
    }),
  table: (summary) => ({
    columns: [
      { label: 'Hazard' },
      { label: 'Use', numeric: true },
      { label: 'Hazard per unit, distribution taken', numeric: true },
    ],
    rows: panelsOf(summary).flatMap(({ fit, end }) => {
      const taken = takenDistribution(fit);
      return [0.1, 0.25, 0.5, 0.75, 1].map((part) => [
        causeTitle(fit),
        numberText(end * part),
        numberText(hazardOf(taken)(end * part)),
      ]);
    }),
  }),
};
