import { NEUTRALS, STRATEGY_TONES } from '../palette.js';
import type { Axis, NumberAxis } from './axes.js';
import type { Drawing, Look } from './chart.js';
import { curve, dots, joined, type Mark, intervals, rule, type Spanned } from './marks.js';
import { picture } from './picture.js';

export interface Curves {
  readonly x: Axis;
  /** One above the other over the same axis, or side by side. */
  readonly panels: readonly { readonly y: NumberAxis; readonly points: readonly Spanned[] }[];
  /** Of points with a look; others are in one colour. */
  readonly looks?: readonly Look[];
  readonly columns?: number;
  readonly height: number;
  /** A choice along the axis, marked on every curve. */
  readonly chosen?: number;
}

/** Means in the bands of their intervals; over places, where no curve passes, points with their intervals. */
export function curves({ x, panels, looks = [], columns = 1, height, chosen }: Curves): Drawing {
  const isSingle = looks.length === 0;
  const style = isSingle ? { tone: STRATEGY_TONES[0] } : {};
  return picture({
    looks,
    legend: isSingle ? null : { symbol: 'stroke' },
    columns,
    spacing: columns === 1 ? 14 : 22,
    panels: panels.map(({ y, points }, place) => ({
      height,
      x: 'title' in x && !('places' in x) ? { ...x, isBare: columns === 1 && place < panels.length - 1 } : x,
      y,
      marks: [
        ...choice(chosen),
        ...('places' in x ? [intervals(points), joined(points, {}, 30)] : curve(points, style, 30)),
        dots(
          points.filter((point) => point.x === chosen).map(({ x: at, value }) => ({ x: at, y: value })),
          { tone: NEUTRALS.warn, size: 160, width: 3, isOpen: true },
        ),
      ],
    })),
  });
}

function choice(chosen: number | undefined): readonly Mark[] {
  return chosen === undefined ? [] : [rule([{ x: chosen }], { tone: NEUTRALS.warn, width: 2, dash: [5, 3] })];
}
