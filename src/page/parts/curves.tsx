import { useCallback } from 'preact/hooks';
import { axis, dashedUpright, type Drawn, type Palette, painting, Plot } from './plot.js';
import type { Estimate } from '../../statistics/estimate.js';

/** A mean at each of some values of what is varied. */
export interface Curve {
  readonly title: string;
  readonly points: readonly (Estimate & { readonly x: number })[];
}

/** What is varied. */
interface Axis {
  readonly title: string;
  readonly least: number;
  readonly most: number;
  /** The choice that is marked on every curve. */
  readonly chosen: number;
}

/** One thing of what was found at some values, as a curve. @param divisor of its numbers, such as 60 for minutes */
export function curveOf<Point extends { readonly at: number }>(
  title: string,
  points: readonly Point[],
  of: (point: Point) => Estimate | number,
  divisor: number,
): Curve {
  const spanned = (estimate: Estimate | number) =>
    typeof estimate === 'number' ? { value: estimate, low: estimate, high: estimate } : estimate;
  return {
    title,
    points: points.map((point) => {
      const { value, low, high } = spanned(of(point));
      return { x: point.at, value: value / divisor, low: low / divisor, high: high / divisor };
    }),
  };
}

/** Curves over one axis, one above the other. */
export function Curves({ curves, ...axis }: Axis & { readonly curves: readonly Curve[] }) {
  return (
    <>
      {curves.map((curve, place) => (
        <CurvePlot {...{ curve, ...axis, isLast: place === curves.length - 1 }} />
      ))}
    </>
  );
}

interface CurveProps extends Axis {
  readonly curve: Curve;
  readonly isLast: boolean;
}

function CurvePlot(props: CurveProps) {
  const { curve, title, most, chosen, isLast } = props;
  const draw = useCallback((palette: Palette) => drawnOf(props, palette), [curve, title, most, chosen]);
  return (
    <>
      <p class="curve">{curve.title}</p>
      <Plot
        height={isLast ? 158 : 118}
        label={`${curve.title}: ${title}. The data are in the table below.`}
        draw={draw}
      />
    </>
  );
}

/** Beside the range, as a part of it, so that a ring at its end is whole. */
const ROOM = 0.02;

function drawnOf({ curve: { points }, title, least, most, chosen, isLast }: CurveProps, palette: Palette): Drawn {
  const room = ROOM * (most - least);
  const colour = palette.strategy(0);
  const bound = { stroke: 'transparent', width: 0, points: { show: false } };
  const across = axis(
    palette,
    isLast ? { label: title, size: 30 } : { size: 8, values: (_, ticks) => ticks.map(() => '') },
  );
  const numbers = axis(palette, { size: 50, space: 22, values: (_, ticks) => ticks.map(String) });
  return {
    data: [
      points.map(({ x }) => x),
      points.map(({ low }) => low),
      points.map(({ high }) => high),
      points.map(({ value }) => value),
    ],
    options: {
      legend: { show: false },
      cursor: { show: false },
      scales: { x: { time: false, range: [least - room, most + room] } },
      axes: [{ ...across, grid: { show: false } }, numbers],
      series: [{}, bound, bound, { stroke: colour, width: 2, points: { show: true, size: 5, fill: colour } }],
      bands: [{ series: [2, 1], fill: `${colour}33` }],
      hooks: {
        draw: [
          painting((chart, context, pixel) => {
            const x = chart.valToPos(chosen, 'x', true);
            context.strokeStyle = palette.warn;
            context.lineWidth = 2 * pixel;
            dashedUpright(chart, context, x, [5 * pixel, 3 * pixel]);
            context.lineWidth = 3 * pixel;
            for (const { value } of points.filter((point) => point.x === chosen)) {
              context.beginPath();
              context.arc(x, chart.valToPos(value, 'y', true), 6 * pixel, 0, 2 * Math.PI);
              context.stroke();
            }
          }),
        ],
      },
    },
  };
}
