import { estimateLine, numberText, SHARE, unitName } from '../../../wording/numbers.js';
import { counted, listed } from '../../../wording/phrases.js';
import type { QuantileEstimate, StrategySummary, Summary } from '../../../analysis/results.js';
import { NEUTRALS } from '../../../report/palette.js';
import { padded } from '../../../report/charts/axes.js';
import { type Chart, strategyLooks, timeScale } from '../../../report/charts/chart.js';
import { dots, rule } from '../../../report/charts/marks.js';
import { picture } from '../../../report/charts/picture.js';

/** Points in the picture over all strategies; more would only blacken the page. */
const MOST = 1600;

function quantile(quantiles: readonly QuantileEstimate[], probability: number): number {
  return quantiles.find((each) => Math.abs(each.probability - probability) < 1e-9)?.value ?? Number.NaN;
}

function middle(
  strategy: StrategySummary,
  summary: Summary,
): Record<'t10' | 't50' | 't90' | 'y10' | 'y50' | 'y90', number> {
  const time = strategy.measures.instrumentTime.quantiles;
  const gain = strategy.measures.yield.quantiles;
  const { divisor } = timeScale(summary);
  return {
    t10: quantile(time, 0.1) / divisor,
    t50: quantile(time, 0.5) / divisor,
    t90: quantile(time, 0.9) / divisor,
    y10: quantile(gain, 0.1),
    y50: quantile(gain, 0.5),
    y90: quantile(gain, 0.9),
  };
}

/** How far the picture reaches beyond the 10th and the 90th percentile, in their distance, and at least in medians. */
const REACH = { distances: 2, medians: 0.1 };

/** Within which the picture stays along an axis, so that a few stragglers do not press all else into a corner. */
function limitsOf(middles: readonly (readonly [p10: number, p50: number, p90: number])[]): readonly [number, number] {
  const reach = ([p10, p50, p90]: readonly [number, number, number]) =>
    Math.max(REACH.distances * (p90 - p10), REACH.medians * Math.abs(p50));
  return [
    Math.min(...middles.map((each) => each[0] - reach(each))),
    Math.max(...middles.map((each) => each[2] + reach(each))),
  ];
}

interface Point {
  readonly x: number;
  readonly y: number;
  readonly look: string;
}

/** Points that are drawn, and how many of them lie outside the picture. */
function pointsOf(summary: Summary): { readonly points: readonly Point[]; readonly outside: number } {
  const scale = timeScale(summary);
  const looks = strategyLooks(summary);
  const every = Math.max(1, Math.ceil(summary.strategies.reduce((sum, each) => sum + each.cloud.length, 0) / MOST));
  const all = summary.strategies.flatMap((strategy, place) =>
    strategy.cloud
      .filter((_, number) => number % every === 0)
      .map((point) => ({ x: point.time / scale.divisor, y: point.yield, look: looks[place].name })),
  );
  const middles = summary.strategies.map((strategy) => middle(strategy, summary));
  const [left, right] = limitsOf(middles.map(({ t10, t50, t90 }) => [t10, t50, t90]));
  const [bottom, top] = limitsOf(middles.map(({ y10, y50, y90 }) => [y10, y50, y90]));
  const points = all.filter(({ x, y }) => x >= left && x <= right && y >= bottom && y <= top);
  return { points, outside: all.length - points.length };
}

export const cloud: Chart = {
  id: 'cloud',
  title: 'Time against yield',
  caption: (summary) => {
    const { points, outside } = pointsOf(summary);
    const left =
      outside === 0
        ? ''
        : ` ${numberText(outside)} of ${counted(points.length + outside, 'point')} lie outside the picture.`;
    return `Each point is one replication. Crosses join the 10th and the 90th percentile in each direction and meet at the medians. Up and to the left is better.${left}`;
  },
  alt: (summary) =>
    `A cloud of points for each strategy. ${listed(
      summary.strategies.map((strategy) => {
        const at = middle(strategy, summary);
        return `${strategy.name} has its median at ${numberText(at.t50)} ${unitName(timeScale(summary))} and a yield of ${numberText(at.y50, SHARE)}`;
      }),
    )}.`,
  drawing: (summary) => {
    const scale = timeScale(summary);
    const looks = strategyLooks(summary);
    const { points } = pointsOf(summary);
    const crosses = summary.strategies.map((strategy, place) => ({
      look: looks[place].name,
      ...middle(strategy, summary),
    }));
    const across = crosses.map(({ t10, t90, y50 }) => ({ x: t10, x2: t90, y: y50 }));
    const up = crosses.map(({ t50, y10, y90 }) => ({ x: t50, y: y10, y2: y90 }));
    const times = [...points, ...up].map(({ x }) => x).concat(across.flatMap(({ x, x2 }) => [x, x2]));
    const gains = [...points, ...across].map(({ y }) => y).concat(up.flatMap(({ y, y2 }) => [y, y2]));
    const [left, right] = padded(times, 0.06, 0.08 * Math.max(...times));
    const [bottom, top] = padded(gains, 0.06, 0.04);
    return picture({
      looks,
      legend: {},
      panels: [
        {
          height: 340,
          x: { title: `Instrument time (${unitName(scale)})`, domain: [Math.max(0, left), right], grid: true },
          y: { title: 'Yield', domain: [Math.max(0, bottom), Math.min(1, top)], format: '.3~p' },
          marks: [
            dots(points, { size: 22, opacity: 0.34 }),
            ...[across, up].map((lines) => rule(lines, { tone: NEUTRALS.paper, width: 5 })),
            ...[across, up].map((lines) =>
              rule(
                lines.map((each, place) => ({ ...each, look: looks[place].name })),
                { width: 2 },
              ),
            ),
            dots(
              crosses.map(({ t50, y50, look }) => ({ x: t50, y: y50, look })),
              { size: 130, edge: NEUTRALS.paper },
            ),
          ],
        },
      ],
    });
  },
  table: (summary) => {
    const scale = timeScale(summary);
    return {
      columns: [
        { label: 'Strategy' },
        { label: 'Instrument time, median', numeric: true },
        { label: '10th to 90th percentile', numeric: true },
        { label: 'Yield, median', numeric: true },
        { label: '10th to 90th percentile', numeric: true },
        { label: 'Mean time', numeric: true },
        { label: 'Mean yield', numeric: true },
      ],
      rows: summary.strategies.map((strategy) => {
        const at = middle(strategy, summary);
        return [
          strategy.name,
          `${numberText(at.t50)} ${scale.unit}`,
          `${numberText(at.t10)} to ${numberText(at.t90)}`,
          numberText(at.y50, SHARE),
          `${numberText(at.y10, SHARE)} to ${numberText(at.y90, SHARE)}`,
          estimateLine(strategy.measures.instrumentTime, scale),
          estimateLine(strategy.measures.yield, SHARE),
        ];
      }),
    };
  },
};
