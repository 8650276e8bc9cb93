import { NEUTRALS } from '../palette.js';
import type { NumberAxis } from './axes.js';
import type { Drawing, Look } from './chart.js';
import type { LegendStyle } from './legend.js';
import { box, type Datum, dots, label, type Mark, rule } from './marks.js';
import { columnsIn, picture, plotWidth } from './picture.js';
import { rowsOf } from './rows.js';

/** What stands in a row: an interval with its value, a bar, or both, by the name of its look. */
export interface ForestItem {
  readonly look: string;
  readonly value?: number;
  readonly low?: number;
  readonly high?: number;
  readonly bar?: readonly [from: number, to: number];
  readonly text?: string;
}

export interface ForestPanel {
  readonly title?: string;
  readonly note?: string;
  readonly x: NumberAxis;
  readonly rows: readonly { readonly name: string; readonly items: readonly ForestItem[] }[];
  /** Values that a line through all rows marks. */
  readonly lines?: readonly { readonly at: number; readonly isDashed?: boolean }[];
  /** A stretch that is set off behind all rows. */
  readonly zone?: readonly [number, number];
}

export interface Forest {
  readonly panels: readonly ForestPanel[];
  readonly looks: readonly Look[];
  readonly legend?: LegendStyle | null;
  readonly columns?: number;
  /** Pixels of a row. */
  readonly step: number;
  /** Items of a row stand one below the other. */
  readonly isSpread?: boolean;
  /** Where texts stand: above their value, or behind their interval. */
  readonly texts?: 'above' | 'behind';
}

/** Rows of intervals about their values, over one axis a panel. */
export function forest({
  panels,
  looks,
  legend = null,
  columns = 1,
  step,
  isSpread = false,
  texts = 'above',
}: Forest): Drawing {
  return (width) => {
    const beside = columnsIn(width, panels.length, columns);
    const names = panels.flatMap(({ rows }) => rows.map(({ name }) => name));
    const { room } = rowsOf(names, step, width);
    const across = plotWidth(width, room, beside);
    return picture({
      looks,
      legend,
      columns: beside,
      panels: panels.map(({ rows, x, ...panel }, place) => {
        const placed = rowsOf(
          rows.map(({ name }) => name),
          step,
          width,
        );
        const all = rows.flatMap(({ items }, row) =>
          items.map((item, number) => {
            const part = isSpread ? (number + 1) / (items.length + 1) : 0.5;
            return { ...item, y: placed.at(row, part), top: placed.at(row, 0.22), bottom: placed.at(row, 0.78) };
          }),
        );
        const isNamed = place % beside === 0 || placed.isAbove;
        return {
          ...panel,
          x: { grid: true, ...x },
          y: placed.y,
          across,
          height: placed.height,
          marks: [
            ...ground(panel),
            ...drawn(all, texts, legend?.symbol === 'stroke'),
            ...(isNamed ? [placed.names] : []),
          ],
        };
      }),
    })(width);
  };
}

function ground({ zone, lines = [] }: Pick<ForestPanel, 'zone' | 'lines'>): readonly Mark[] {
  return [
    box(zone === undefined ? [] : [{ x: zone[0], x2: zone[1] }]),
    ...lines.map(({ at, isDashed = false }) =>
      isDashed ? rule([{ x: at }], { dash: [4, 3], width: 1.2, tone: NEUTRALS.ink }) : rule([{ x: at }]),
    ),
  ];
}

type Placed = ForestItem & { readonly y: number; readonly top: number; readonly bottom: number };

function drawn(all: readonly Placed[], texts: Forest['texts'], hasDashes: boolean): readonly Mark[] {
  const bars: Datum[] = all.flatMap(({ bar, top, bottom, look }) =>
    bar === undefined ? [] : [{ x: bar[0], x2: bar[1], y: top, y2: bottom, look }],
  );
  const spans = all.flatMap(({ low, high, y, look, bar }) =>
    low === undefined || high === undefined ? [] : [{ x: low, x2: high, y, look, isThin: bar !== undefined }],
  );
  const said = all.flatMap(({ text, value, high, y }) =>
    text === undefined || value === undefined ? [] : [{ text, y, x: texts === 'above' ? value : (high ?? value) }],
  );
  return [
    box(bars),
    rule(
      spans.flatMap(({ isThin, ...span }) => (isThin ? [] : [span])),
      { width: 2.6, hasDashes },
    ),
    rule(
      spans.flatMap(({ isThin, x, x2, y }) => (isThin ? [{ x, x2, y }] : [])),
      { tone: NEUTRALS.ink },
    ),
    // In the legend lines stand for looks that differ by their dashes.
    hasDashes
      ? dots(
          all.flatMap(({ value, y }) => (value === undefined ? [] : [{ x: value, y }])),
          { tone: NEUTRALS.ink, size: 46 },
        )
      : dots(all.flatMap(({ value, y, look }) => (value === undefined ? [] : [{ x: value, y, look }]))),
    texts === 'above'
      ? label(said, { dy: -13, size: 11.5, hasGround: true })
      : label(said, { align: 'left', dx: 8, size: 11.5 }),
  ];
}
