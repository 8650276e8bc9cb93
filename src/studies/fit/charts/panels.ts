import { capital } from '../../../wording/phrases.js';
import { max } from 'simple-statistics';
import { FITTED } from '../../../survival/distributions.js';
import type { CauseFit, CurvePoint, FitSummary, DistributionFit } from '../results.js';
import { distributionName, unitText } from '../words.js';
import { type Drawing, looksOf } from '../../../report/charts/chart.js';
import { line, type Mark, type Spanned } from '../../../report/charts/marks.js';
import { type Panel as Plot, picture } from '../../../report/charts/picture.js';
import { allCauses, causeTitle, chosenDistribution } from '../report-words.js';

/** Panels of one picture; what does not fit stands in the table under it. */
const MOST_PANELS = 12;

/** The same look for a distribution in every picture. */
const DISTRIBUTION_LOOKS = looksOf(FITTED.map(distributionName));

/** Lines of the distributions of one panel; `points` gives those of one distribution. */
export function distributionLines(
  distributions: readonly DistributionFit[],
  points: (distribution: DistributionFit) => readonly { x: number; y: number }[],
): Mark {
  return line(
    distributions.flatMap((distribution) =>
      points(distribution).map((point) => ({ ...point, look: distributionName(distribution.distribution) })),
    ),
    { width: 2, isClipped: true },
  );
}

export interface Panel {
  readonly fit: CauseFit;
  readonly title: string;
  /** Exposure up to which it is drawn. */
  readonly end: number;
}

/** What is drawn: every cause with a distribution. */
export function panelsOf(summary: FitSummary): readonly Panel[] {
  return allCauses(summary)
    .filter(({ distributions, survival }) => distributions.length > 0 && survival.length > 0)
    .slice(0, MOST_PANELS)
    .map((fit) => ({
      fit,
      title: causeTitle(fit),
      end: max(fit.survival.map(({ exposure }) => exposure)),
    }));
}

/** What is left out of a picture, for its caption. */
export function leftOutText(summary: FitSummary): string {
  const all = allCauses(summary).filter(({ distributions }) => distributions.length > 0).length;
  return all > MOST_PANELS ? ` The first ${String(MOST_PANELS)} of ${String(all)} are drawn.` : '';
}

/** A plot for each cause under one legend of the distributions; null where no cause has a distribution. */
export function distributionPicture(
  summary: FitSummary,
  plot: (panel: Panel) => Omit<Plot, 'title' | 'height'>,
): Drawing | null {
  const panels = panelsOf(summary);
  if (panels.length === 0) return null;
  return picture({
    looks: DISTRIBUTION_LOOKS,
    legend: { symbol: 'stroke', orient: 'bottom' },
    columns: 2,
    panels: panels.map((panel) => ({ title: panel.title, height: panelHeight(panels), ...plot(panel) })),
  });
}

/** The distribution that was taken, or the first one where none was. */
export function takenDistribution(fit: CauseFit): DistributionFit {
  return chosenDistribution(fit) ?? fit.distributions[0];
}

/** Height of each of so many panels, of which two columns stand side by side. */
export function panelHeight(panels: readonly unknown[]): number {
  return panels.length === 1 ? 247 : 190;
}

/** What the drawn distributions leave out, for a caption. */
export function plainDistributionsText(summary: FitSummary): string {
  return allCauses(summary).some(({ acceleration }) => acceleration?.isTaken === true)
    ? ' The distributions are drawn as fitted to the lifetimes in the log, without what load and pace do to them.'
    : '';
}

export function exposureTitle({ per }: Pick<CauseFit, 'per'>): string {
  const names: Readonly<Partial<Record<string, string>>> = { mm: 'Path (mm)', h: 'Scanning (h)' };
  const unit = unitText(per);
  return names[unit] ?? capital(unit);
}

/** A curve of a distribution at many exposures, from a little above `start` to `end`. */
export function sampled(end: number, value: (exposure: number) => number, start = 0): { x: number; y: number }[] {
  const POINTS = 80;
  return Array.from({ length: POINTS + 1 }, (_, place) => start + ((end - start) * place) / POINTS)
    .map((x) => ({ x, y: value(x) }))
    .filter(({ y }) => Number.isFinite(y));
}

/** Corners of a step curve that starts at this value, drawn from event to event. */
export function stepsFrom(points: readonly CurvePoint[], start: number, end: number): readonly Spanned[] {
  const steps = [
    { x: 0, value: start, low: start, high: start },
    ...points.map(({ exposure, value, low, high }) => ({ x: exposure, value, low: low ?? value, high: high ?? value })),
  ];
  const last = steps[steps.length - 1];
  return last.x < end ? [...steps, { ...last, x: end }] : steps;
}

/** Rows of the table under a picture of curves: evenly chosen, so that a long log stays readable. */
export function evenly<T>(items: readonly T[], most = 25): readonly T[] {
  if (items.length <= most) return items;
  return Array.from({ length: most }, (_, place) => items[Math.round((place * (items.length - 1)) / (most - 1))]);
}
