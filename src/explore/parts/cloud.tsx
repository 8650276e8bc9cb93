import { useCallback } from 'preact/hooks';
import type { Summary } from '../../analysis/results.js';
import { strategyLabels, timeScale } from '../../report/charts/chart.js';
import { numberText, SHARE, unitName } from '../../wording/numbers.js';
import { cloud } from '../../studies/compare/charts/cloud.js';
import { Figure, Legend } from '../../page/parts/figure.js';
import { axis, type Drawn, type Palette, painting, Plot } from '../../page/parts/plot.js';

/** Time against yield, a point for each of some campaigns. */
export function Cloud({ summary }: { readonly summary: Summary }) {
  const draw = useCallback((palette: Palette) => drawnOf(summary, palette), [summary]);
  return (
    <Figure
      title={cloud.title}
      caption="Each point is one replication; the ring stands at the means. Up and to the left is better."
      table={cloud.table(summary)}
    >
      <Legend names={strategyLabels(summary)} />
      <Plot height={280} label={cloud.alt(summary)} draw={draw} />
    </Figure>
  );
}

function drawnOf(summary: Summary, palette: Palette): Drawn {
  const { strategies } = summary;
  const scale = timeScale(summary);
  const clouds = strategies.map(({ cloud: points, measures }) => ({
    points: points.map((point) => ({ x: point.time / scale.divisor, y: point.yield })),
    middle: { x: measures.instrumentTime.value / scale.divisor, y: measures.yield.value },
  }));
  const all = clouds.flatMap(({ points }) => points);
  const [left, right] = around(
    all.map(({ x }) => x),
    Infinity,
  );
  const [bottom, top] = around(
    all.map(({ y }) => y),
    1,
  );
  return {
    data: [
      [left, right],
      [bottom, top],
    ],
    options: {
      legend: { show: false },
      cursor: { show: false },
      scales: { x: { time: false, range: [left, right] }, y: { range: [bottom, top] } },
      axes: [
        axis(palette, { label: `Instrument time (${unitName(scale)})` }),
        axis(palette, { values: (_, ticks) => ticks.map((tick) => numberText(tick, SHARE)), size: 56 }),
      ],
      series: [{}, { show: false }],
      hooks: {
        draw: [
          painting((chart, context, pixel) => {
            const place = ({ x, y }: { x: number; y: number }) =>
              [chart.valToPos(x, 'x', true), chart.valToPos(y, 'y', true)] as const;
            clouds.forEach(({ points }, strategy) => {
              context.fillStyle = `${palette.strategy(strategy)}66`;
              for (const point of points) dot(context, strategy, place(point), 2.4 * pixel);
            });
            clouds.forEach(({ middle }, strategy) => {
              const [x, y] = place(middle);
              for (const [colour, width] of [
                [palette.paper, 5],
                [palette.strategy(strategy), 2.5],
              ] as const) {
                context.strokeStyle = colour;
                context.lineWidth = width * pixel;
                context.beginPath();
                context.arc(x, y, 7 * pixel, 0, 2 * Math.PI);
                context.stroke();
              }
            });
          }),
        ],
      },
    },
  };
}

/** Round, square and pointed in turn, so that strategies are told apart without colour. */
function dot(
  context: CanvasRenderingContext2D,
  strategy: number,
  [x, y]: readonly [number, number],
  size: number,
): void {
  context.beginPath();
  if (strategy % 3 === 0) context.arc(x, y, size, 0, 2 * Math.PI);
  else if (strategy % 3 === 1) context.rect(x - size, y - size, 2 * size, 2 * size);
  else {
    context.moveTo(x, y - 1.3 * size);
    context.lineTo(x + 1.2 * size, y + size);
    context.lineTo(x - 1.2 * size, y + size);
  }
  context.fill();
}

/** An axis around some numbers, from 0 on at the least. */
function around(values: readonly number[], most: number): [number, number] {
  const low = Math.min(...values);
  const high = Math.max(...values);
  const room = Math.max(0.08 * (high - low), 0.02 * Math.abs(high), 1e-3);
  return [Math.max(0, low - room), Math.min(most, high + room)];
}
