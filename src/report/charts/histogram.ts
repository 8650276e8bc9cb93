import { NEUTRALS } from '../palette.js';
import { PERCENT } from './axes.js';
import type { Drawing, Look } from './chart.js';
import { box, rule } from './marks.js';
import { picture } from './picture.js';

/** Counts from `from` to `to`, both included, and the share that has one of them. */
export interface Bin {
  readonly from: number;
  readonly to: number;
  readonly share: number;
}

export interface Histogram {
  readonly title: string;
  /** One panel each, over one axis. */
  readonly series: readonly { readonly look: Look; readonly bins: readonly Bin[]; readonly mean: number }[];
}

/** Shares by whole numbers, each panel with its mean as a vertical line. */
export function histogram({ title, series }: Histogram): Drawing {
  const bins = series.flatMap((each) => each.bins);
  const low = Math.min(...bins.map(({ from }) => from));
  const high = Math.max(...bins.map(({ to }) => to));
  const tallest = Math.max(0.01, ...bins.map(({ share }) => share));
  return picture({
    spacing: 12,
    panels: series.map(({ look, bins: own, mean }, place) => ({
      title: look.name,
      height: series.length > 4 ? 46 : 74,
      x: { title, domain: [low - 1, high + 1], isWhole: true, isBare: place < series.length - 1 },
      y: { title: null, domain: [0, tallest * 1.05], format: PERCENT },
      marks: [
        box(
          own.map(({ from, to, share }) => ({ x: from - 0.46, x2: to + 0.46, y: 0, y2: share })),
          { tone: look.tone },
        ),
        rule([{ x: mean }], { tone: NEUTRALS.paper, width: 4 }),
        rule([{ x: mean }], { tone: NEUTRALS.ink, width: 1.6 }),
      ],
    })),
  });
}
