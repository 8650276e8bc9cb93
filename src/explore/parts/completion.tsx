import { useCallback } from 'preact/hooks';
import uPlot from 'uplot';
import type { FinishPoint, Summary } from '../../analysis/results.js';
import { strategyLabels } from '../../report/charts/chart.js';
import { finishChart } from '../../report/charts/finish.js';
import { foldedTime } from '../../report/charts/folded.js';
import { cycled, STRATEGY_DASHES } from '../../report/palette.js';
import { calendarScale, numberText, SHARE, unitName, workScale } from '../../wording/numbers.js';
import { Figure, Legend } from '../../page/parts/figure.js';
import { axis, type Drawn, type Palette, painting, Plot } from '../../page/parts/plot.js';

const CHART = finishChart<Summary>('since the start');

/** The chance to be complete by booked time, a rising line for each strategy. */
export function Completion({ summary }: { readonly summary: Summary }) {
  const draw = useCallback((palette: Palette) => drawnOf(summary, palette), [summary]);
  return (
    <Figure title={CHART.title} caption={CHART.caption(summary)} table={CHART.table(summary)}>
      <Legend names={strategyLabels(summary)} />
      <Plot height={260} label={CHART.alt(summary)} draw={draw} />
    </Figure>
  );
}

function drawnOf(summary: Summary, palette: Palette): Drawn {
  const { calendar, allocation, strategies } = summary;
  const hasSessions = calendar.sessions.length > 0;
  const latest = Math.max(
    ...strategies.flatMap(({ finishing, measures }) => finishing.at(-1)?.time ?? measures.totalTime.value),
    allocation?.end ?? 0,
  );
  const folded = (time: number) => foldedTime(calendar, time);
  const scale = hasSessions ? workScale(folded(latest)) : calendarScale(latest);
  const at = (time: number) => folded(time) / scale.divisor;
  const end = 1.04 * at(latest);
  const times = [...new Set(strategies.flatMap(({ finishing }) => finishing.map(({ time }) => time)))].sort(
    (a, b) => a - b,
  );
  const xs = [0, ...times.map(at), end];
  const lines = strategies.flatMap(({ finishing }) =>
    (['low', 'high', 'value'] as const).map((part) => stepped(finishing, times, part)),
  );
  const paths = uPlot.paths.stepped?.({ align: 1 });
  const style = (place: number): uPlot.Series => ({
    ...{ stroke: palette.strategy(place), width: 2, points: { show: false }, dash: dashOf(place) },
    ...(paths === undefined ? {} : { paths }),
  });
  const bound: uPlot.Series = { ...style(0), stroke: 'transparent', width: 0 };
  const rules = [...calendar.sessions.map((session) => ({ x: at(session.end), isGranted: false }))].concat(
    allocation === null ? [] : [{ x: at(allocation.end), isGranted: true }],
  );
  return {
    data: [xs, ...lines],
    options: {
      legend: { show: false },
      cursor: { show: false },
      scales: { x: { time: false, range: [0, end] }, y: { range: [0, 1.02] } },
      axes: [
        axis(palette, {
          label: hasSessions ? `Booked time (${unitName(scale)})` : `Time since the start (${unitName(scale)})`,
        }),
        axis(palette, { values: (_, ticks) => ticks.map((tick) => numberText(tick, SHARE)), size: 52 }),
      ],
      series: [{}, ...strategies.flatMap((_, place) => [bound, bound, style(place)])],
      bands: strategies.map((_, place) => ({
        series: [3 * place + 2, 3 * place + 1],
        fill: `${palette.strategy(place)}26`,
      })),
      hooks: {
        drawAxes: [
          painting((chart, context, pixel) => {
            for (const { x, isGranted } of rules) {
              const across = chart.valToPos(x, 'x', true);
              context.strokeStyle = isGranted ? palette.ink : palette.line;
              context.lineWidth = (isGranted ? 1.3 : 1) * pixel;
              context.setLineDash(isGranted ? [4 * pixel, 3 * pixel] : []);
              context.beginPath();
              context.moveTo(across, chart.bbox.top);
              context.lineTo(across, chart.bbox.top + chart.bbox.height);
              context.stroke();
            }
          }),
        ],
      },
    },
  };
}

function dashOf(place: number): number[] {
  const dash = cycled(STRATEGY_DASHES, place);
  return place % STRATEGY_DASHES.length === 0 ? [] : [...dash];
}

/** What a rising line has come to at the start, at each of the times, and at the end. */
function stepped(points: readonly FinishPoint[], times: readonly number[], part: 'value' | 'low' | 'high'): number[] {
  let next = 0;
  let now = 0;
  const values = times.map((time) => {
    while (next < points.length && points[next].time <= time) {
      now = points[next][part];
      next += 1;
    }
    return now;
  });
  return [0, ...values, now];
}
