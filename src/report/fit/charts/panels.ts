import { capital } from '../../text.js';
import { max } from 'simple-statistics';
import type { FittedLaw } from '../../../survival/laws.js';
import type { CauseFit, CurvePoint, FitSummary } from '../../../study/fit/results.js';
import { lawName, unitText } from '../../../study/fit/words.js';
import { STRATEGY_DASHES, STRATEGY_TONES } from '../../palette.js';
import { WIDTH } from '../../charts/chart.js';
import { allCauses, causeTitle } from '../words.js';

/** Panels of one picture; what does not fit stands in the table under it. */
const MOST_PANELS = 12;

const LAW_ORDER: readonly FittedLaw[] = ['exponential', 'weibull', 'lognormal', 'gamma'];

/** The same colour and dash for a law in every picture. */
export function lawScales() {
  const domain = LAW_ORDER.map(lawName);
  return {
    color: { domain, range: LAW_ORDER.map((_, place) => STRATEGY_TONES[place].light) },
    dash: { domain, range: LAW_ORDER.map((_, place) => [...STRATEGY_DASHES[place]]) },
  };
}

export interface Panel {
  readonly fit: CauseFit;
  readonly title: string;
  /** Exposure up to which it is drawn. */
  readonly end: number;
}

/** What is drawn: every cause with a law. */
export function panelsOf(summary: FitSummary): readonly Panel[] {
  return allCauses(summary)
    .filter(({ laws, survival }) => laws.length > 0 && survival.length > 0)
    .slice(0, MOST_PANELS)
    .map((fit) => ({
      fit,
      title: causeTitle(fit),
      end: max(fit.survival.map(({ exposure }) => exposure)),
    }));
}

/** What is left out of a picture, for its caption. */
export function leftOutText(summary: FitSummary): string {
  const all = allCauses(summary).filter(({ laws }) => laws.length > 0).length;
  return all > MOST_PANELS ? ` The first ${String(MOST_PANELS)} of ${String(all)} are drawn.` : '';
}

/** Height of one panel. */
const HEIGHT = 190;

/** Axes and gaps of two columns of panels, and of one. */
const BESIDE_TWO = 190;
const BESIDE_ONE = 90;

/** Width and height of each of so many panels: two columns of them, or one that is as wide as other charts. */
export function panelSize(panels: readonly unknown[]): { readonly width: number; readonly height: number } {
  return panels.length === 1
    ? { width: WIDTH - BESIDE_ONE, height: 1.3 * HEIGHT }
    : { width: (WIDTH - BESIDE_TWO) / 2, height: HEIGHT };
}

/** What the drawn laws leave out, for a caption. */
export function plainLawsText(summary: FitSummary): string {
  return allCauses(summary).some(({ acceleration }) => acceleration?.isTaken === true)
    ? ' The laws are drawn as fitted to the lives as they are in the log, without what load and pace do to them.'
    : '';
}

export function exposureTitle({ per }: CauseFit): string {
  const names: Readonly<Partial<Record<string, string>>> = { mm: 'Path (mm)', h: 'Scanning (h)' };
  const unit = unitText(per);
  return names[unit] ?? capital(unit);
}

/** A curve of a law at many exposures, from a little above `start` to `end`. */
export function sampled(end: number, value: (exposure: number) => number, start = 0): { x: number; y: number }[] {
  const POINTS = 80;
  return Array.from({ length: POINTS + 1 }, (_, place) => start + ((end - start) * place) / POINTS)
    .map((x) => ({ x, y: value(x) }))
    .filter(({ y }) => Number.isFinite(y));
}

/** Corners of a step curve that starts at this value, drawn from event to event. */
export function stepsFrom(points: readonly CurvePoint[], start: number, end: number) {
  const steps = [
    { x: 0, y: start, low: start, high: start },
    ...points.map(({ exposure, value, low, high }) => ({
      x: exposure,
      y: value,
      low: low ?? value,
      high: high ?? value,
    })),
  ];
  const last = steps[steps.length - 1];
  return last.x < end ? [...steps, { ...last, x: end }] : steps;
}

/** Rows of the table under a picture of curves: evenly chosen, so that a long log stays readable. */
export function evenly<T>(items: readonly T[], most = 25): readonly T[] {
  if (items.length <= most) return items;
  return Array.from({ length: most }, (_, place) => items[Math.round((place * (items.length - 1)) / (most - 1))]);
}
