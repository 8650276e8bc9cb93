import type { TopLevelSpec } from 'vega-lite';
import { SCHEMA } from '../../report/charts/chart.js';
import { chartConfig } from '../../report/charts/config.js';
import { NEUTRALS, STRATEGY_TONES } from '../../report/palette.js';
import type { Estimate } from '../../study/results.js';

/** One measure over the values that were tried, in the unit of its axis. */
export interface Curve {
  readonly title: string;
  readonly points: readonly (Estimate & { readonly at: number })[];
}

export interface Curves {
  readonly curves: readonly Curve[];
  /** What is varied, as the axis says it. */
  readonly axis: string;
  readonly domain: readonly [number, number];
  /** The person's choice, marked on every curve. */
  readonly chosen: number;
  /** Width of the whole, in CSS pixels at the usual text size. */
  readonly width: number;
}

const HEIGHT = 118;
/** Beside the plot: the labels of its axes. */
const MARGIN = 76;

/** One panel a measure above another, each with the interval of its means as a band and the choice as a vertical line. */
export function curvesSpec({ curves, axis, domain, chosen, width }: Curves): TopLevelSpec {
  const accent = STRATEGY_TONES[0].light;
  const scale = { domain: [...domain], nice: false, zero: false };
  return {
    $schema: SCHEMA,
    config: chartConfig(),
    spacing: 14,
    vconcat: curves.map(({ title, points }, place) => {
      const isLast = place === curves.length - 1;
      const x = {
        field: 'at',
        type: 'quantitative' as const,
        scale,
        title: isLast ? axis : null,
        axis: { labels: isLast, grid: false, tickCount: 6 },
      };
      const y = { type: 'quantitative' as const, scale: { zero: false }, axis: { tickCount: 4, minExtent: 34 } };
      return {
        width: width - MARGIN,
        height: HEIGHT,
        title: { text: title, fontWeight: 'normal' as const, fontSize: 12.5 },
        layer: [
          {
            data: { values: [{ at: chosen }] },
            mark: { type: 'rule' as const, color: NEUTRALS.warn.light, strokeWidth: 2, strokeDash: [5, 3] },
            encoding: { x },
          },
          {
            data: { values: points.map(({ at, low, high }) => ({ at, low, high })) },
            mark: { type: 'area' as const, color: accent, opacity: 0.18 },
            encoding: { x, y: { ...y, field: 'low', title: null }, y2: { field: 'high' } },
          },
          {
            data: { values: points.map(({ at, value }) => ({ at, value })) },
            mark: { type: 'line' as const, color: accent, strokeWidth: 2, point: { color: accent, size: 36 } },
            encoding: { x, y: { ...y, field: 'value', title: null } },
          },
          {
            data: { values: points.filter(({ at }) => at === chosen).map(({ at, value }) => ({ at, value })) },
            mark: { type: 'point' as const, color: NEUTRALS.warn.light, size: 160, strokeWidth: 3, filled: false },
            encoding: { x, y: { ...y, field: 'value', title: null } },
          },
        ],
      };
    }),
  };
}
