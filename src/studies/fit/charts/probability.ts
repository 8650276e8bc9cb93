import { numberText, SHARE } from '../../../wording/numbers.js';
import { ln, pow } from '../../../chance/elementary.js';
import { survivalOf } from '../../../survival/fit-life.js';
import type { CauseFit, FitSummary, DistributionFit } from '../results.js';
import { NEUTRALS } from '../../../report/palette.js';
import { causeTitle, goodnessText, share } from '../report-words.js';
import {
  evenly,
  exposureTitle,
  distributionLines,
  distributionPicture,
  leftOutText,
  panelsOf,
  plainDistributionsText,
  takenDistribution,
} from './panels.js';
import type { Chart } from '../../../report/charts/chart.js';
import { dots } from '../../../report/charts/marks.js';

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

/** A distribution on Weibull paper, sampled in equal ratios of exposure. */
function straightened(distribution: DistributionFit, first: number, end: number): readonly { x: number; y: number }[] {
  const STEPS = 60;
  const left = survivalOf(distribution);
  return Array.from({ length: STEPS + 1 }, (_, place) => first * pow(end / first, place / STEPS))
    .map((x) => ({ x, y: height(1 - left(x)) }))
    .filter(({ y }) => Number.isFinite(y));
}

export const probability: Chart<FitSummary> = {
  id: 'probability',
  title: 'Probability plot',
  caption: (summary) =>
    'A point for each use at which an event was noticed, on Weibull paper: use on a log scale, and the share ended so that a Weibull distribution is straight (an exponential one too, with slope 1). A distribution is good where its line runs through the points; a bend at the lower left says that early events are of another kind.' +
    plainDistributionsText(summary) +
    leftOutText(summary),
  alt: (summary) =>
    `A probability plot for each hazard; ${panelsOf(summary)
      .map(({ fit, title }) => `${title}: ${goodnessText(fit)}`)
      .join('; ')}.`,
  drawing: (summary) =>
    distributionPicture(summary, ({ fit, end }) => {
      const points = pointsOf(fit);
      const first = Math.min(end / 4, ...points.map(({ exposure }) => exposure)) * 0.8;
      const shares = points.map(({ failed }) => failed);
      const [low, high] = [
        height(Math.min(0.05, ...shares) * 0.7),
        height(Math.max(0.632, 1 - (1 - Math.max(...shares)) * 0.6)),
      ];
      return {
        x: { title: exposureTitle(fit), domain: [first, end * 1.05], isLog: true, format: '~g' },
        y: {
          title: null,
          domain: [low, high],
          ticks: SHARES.map((each) => ({ at: height(each), label: numberText(each, SHARE) })).filter(
            ({ at }) => at >= low && at <= high,
          ),
        },
        marks: [
          distributionLines(fit.distributions, (distribution) =>
            straightened(distribution, first, end).filter(({ y }) => y >= low - 3),
          ),
          dots(
            points.map(({ exposure, failed }) => ({ x: exposure, y: height(failed) })),
            { size: 34, tone: NEUTRALS.ink },
          ),
        ],
      };
    }),
  table: (summary) => ({
    columns: [
      { label: 'Hazard' },
      { label: 'Use', numeric: true },
      { label: 'Share ended', numeric: true },
      { label: 'By the distribution taken', numeric: true },
    ],
    rows: panelsOf(summary).flatMap(({ fit }) => {
      const taken = takenDistribution(fit);
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
