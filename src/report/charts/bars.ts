import { NEUTRALS } from '../palette.js';
import { textWidth } from '../text-width.js';
import type { NumberAxis } from './axes.js';
import type { Drawing, Look } from './chart.js';
import { box, label } from './marks.js';
import { columnsIn, picture, plotWidth } from './picture.js';
import { rowsOf } from './rows.js';

export interface BarPanel {
  readonly title?: string;
  readonly note?: string;
  readonly rows: readonly {
    readonly name: string;
    /** From the left, by the names of their looks; a text stands inside where it has room. */
    readonly parts: readonly { readonly look: string; readonly size: number; readonly text?: string }[];
    /** What all parts come to, in words. */
    readonly total?: string;
  }[];
}

export interface Bars {
  readonly panels: readonly BarPanel[];
  readonly looks: readonly Look[];
  readonly x: Omit<NumberAxis, 'domain'>;
  readonly columns?: number;
  /** Pixels of a row. */
  readonly step?: number;
}

/** Bars of parts in a row, all from zero. */
export function bars({ panels, looks, x, columns = 1, step = 44 }: Bars): Drawing {
  return (width) => {
    const beside = columnsIn(width, panels.length, columns);
    const rows = panels.flatMap((panel) => panel.rows);
    const names = rows.map(({ name }) => name);
    const { room, isAbove } = rowsOf(names, step, width);
    const across = plotWidth(width, room * beside, beside);
    const longest = Math.max(...rows.map(({ parts }) => parts.reduce((sum, { size }) => sum + size, 0)));
    const behind = isAbove ? 0 : Math.max(0, ...rows.map(({ total = '' }) => textWidth(total, 12) + 10));
    const end = (longest * across) / Math.max(across / 2, across - behind) || 1;
    return picture({
      looks,
      legend: { symbol: 'square', orient: 'bottom' },
      columns: beside,
      panels: panels.map(({ rows: own, ...panel }) => {
        const placed = rowsOf(
          own.map(({ name, total }) => (isAbove && total !== undefined ? `${name}: ${total}` : name)),
          step,
          width,
        );
        const parts = own.flatMap((row, number) => {
          let from = 0;
          return row.parts.map(({ look, size, text }) => {
            const start = from;
            from += size;
            const hasRoom = text !== undefined && (size / end) * across > textWidth(text, 12) + 5;
            const [top, bottom] = [placed.at(number, 0.2), placed.at(number, 0.8)];
            return { x: start, x2: from, y: top, y2: bottom, look, text: hasRoom ? text : '' };
          });
        });
        const inside = parts.filter(({ text }) => text !== '');
        return {
          ...panel,
          x: { grid: true, ...x, domain: [0, end] },
          y: placed.y,
          across,
          height: placed.height,
          marks: [
            box(
              parts.filter(({ x: from, x2: to }) => to > from),
              { edge: NEUTRALS.paper },
            ),
            label(
              inside.map(({ x: from, x2: to, y: top, y2: bottom, text }) => ({
                x: (from + to) / 2,
                y: (top + bottom) / 2,
                text,
              })),
              { isBold: true, hasGround: true },
            ),
            label(
              isAbove
                ? []
                : own.flatMap(({ parts: all, total }, number) =>
                    total === undefined
                      ? []
                      : [{ x: all.reduce((sum, { size }) => sum + size, 0), y: placed.at(number, 0.5), text: total }],
                  ),
              { align: 'left', dx: 7 },
            ),
            placed.names,
          ],
        };
      }),
    })(width);
  };
}
